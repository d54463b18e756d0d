import { describe, expect, it } from 'vitest'
import { calendarFade_per_s, cycleFade_per_C, fadeAtAge, shareLeftByFade } from './ageing.ts'
import { arrheniusFactor } from './arrhenius.ts'
import { findCell } from './cell-catalogue.ts'
import { afterLosses, restedState } from './cell-state.ts'
import { selfDischargeRate_per_s, shareKept } from './self-discharge.ts'

const YEAR_S = 365 * 86400
const lithium = findCell('Li-ion')!

describe('Arrhenius factor', () => {
  it('is 1 at 20 °C and doubles over 10 K at the energy that says so', () => {
    // Ea = k ln 2 / (1/293.15 K - 1/303.15 K): closed form.
    const energy_eV = (8.617333262e-5 * Math.log(2)) / (1 / 293.15 - 1 / 303.15)
    expect(energy_eV).toBeCloseTo(0.5308, 4)
    expect(arrheniusFactor(energy_eV, 20)).toBe(1)
    expect(arrheniusFactor(energy_eV, 30)).toBeCloseTo(2, 12)
    expect(arrheniusFactor(0, 60)).toBe(1)
  })

  it('is within a factor of 1.5 of the rule of thumb "doubles every 10 K" (common practice) from 0 to 60 °C', () => {
    for (const temperature_C of [0, 10, 30, 45, 60]) {
      const rule = 2 ** ((temperature_C - 20) / 10)
      expect(arrheniusFactor(0.53, temperature_C) / rule).toBeGreaterThan(1 / 1.5)
      expect(arrheniusFactor(0.53, temperature_C) / rule).toBeLessThan(1.5)
    }
  })
})

describe('self-discharge', () => {
  it('is a rate on the charge left: 0.18 a year keeps exp(-0.18) after a year', () => {
    expect(selfDischargeRate_per_s(lithium, 20) * YEAR_S).toBeCloseTo(0.18, 12)
    expect(shareKept(lithium, 20, YEAR_S)).toBeCloseTo(Math.exp(-0.18), 12)
  })
})

describe('ageing', () => {
  it('takes the calendar share a year and the cycle share a full cycle', () => {
    expect(calendarFade_per_s(lithium, 20) * YEAR_S).toBeCloseTo(0.03, 12)
    expect(cycleFade_per_C(lithium) * lithium.capacity_C).toBeCloseTo(0.0004, 12)
    expect(fadeAtAge(lithium, 5 * YEAR_S, 20)).toBeCloseTo(0.15, 12)
    expect(fadeAtAge(lithium, 1000 * YEAR_S, 20)).toBe(1)
  })

  it('goes faster when warm', () => {
    const ratio = calendarFade_per_s(lithium, 40) / calendarFade_per_s(lithium, 20)
    expect(ratio).toBeCloseTo(arrheniusFactor(lithium.activation_eV, 40), 12)
  })

  it('takes the charge that stood in lost capacity, and leaves the state of charge alone', () => {
    expect(shareLeftByFade(0.1, 0.19)).toBeCloseTo(0.9, 12)
    const still = { ...lithium, selfDischarge_per_year: 0 }
    const before = restedState(still, 0.6, 0.1)
    const after = afterLosses(still, before, still.capacity_C, 20, YEAR_S)
    expect(after.fade).toBeCloseTo(0.1 + 0.03 + 0.0004, 12)
    expect(after.charge_C / (still.capacity_C * (1 - after.fade))).toBeCloseTo(0.6, 12)
    expect(after.available_C / after.charge_C).toBeCloseTo(still.wells.c, 12)
  })
})
