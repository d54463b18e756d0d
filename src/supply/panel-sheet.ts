/** Whether the numbers of a panel's data sheet can belong to one panel, before anything is fitted to them. */
import type { Panel } from './supply.ts'

/** Throws RangeError, saying which number, against what, and what to look at. */
export function checkPanelSheet(sheet: Panel<number>): void {
  const { openCircuit_V, shortCircuit_A, maximumPower_V, maximumPower_A, cellsInSeries } = sheet
  const refuse = (problem: string): never => {
    throw new RangeError(`the panel's numbers do not go together: ${problem}`)
  }
  for (const [name, value, unit] of [
    ['open-circuit voltage', openCircuit_V, 'V'],
    ['short-circuit current', shortCircuit_A, 'A'],
    ['voltage at maximum power', maximumPower_V, 'V'],
    ['current at maximum power', maximumPower_A, 'A'],
  ] as const)
    if (!(value > 0 && value < Infinity)) refuse(`${name} ${value} ${unit} is not above zero`)
  if (maximumPower_V >= openCircuit_V)
    refuse(`voltage at maximum power ${maximumPower_V} V is not below open circuit, ${openCircuit_V} V`)
  if (maximumPower_A >= shortCircuit_A)
    refuse(`current at maximum power ${maximumPower_A} A is not below short circuit, ${shortCircuit_A} A`)
  const fill = (maximumPower_V * maximumPower_A) / (openCircuit_V * shortCircuit_A)
  if (fill < 0.25 || fill > 0.9)
    refuse(`fill factor ${fill.toFixed(3)} is outside 0.25 to 0.9; is one of voltage and current mistyped?`)
  // A curve that bends downwards lies below its tangent, which at maximum power meets the axes at 2·Vmp and 2·Imp.
  if (2 * maximumPower_V < openCircuit_V)
    refuse(`voltage at maximum power ${maximumPower_V} V is below half of open circuit, ${openCircuit_V} V`)
  if (2 * maximumPower_A < shortCircuit_A)
    refuse(`current at maximum power ${maximumPower_A} A is below half of short circuit, ${shortCircuit_A} A`)
  if (!Number.isInteger(cellsInSeries) || cellsInSeries < 1)
    refuse(`${cellsInSeries} cells in series is not a whole number from 1 on`)
  const each_V = openCircuit_V / cellsInSeries
  if (each_V < 0.3 || each_V > 1.2)
    refuse(
      `${openCircuit_V} V over ${cellsInSeries} cells is ${each_V.toFixed(2)} V a cell, not 0.3 V to 1.2 V`,
    )
  const { currentCoefficient_per_K, voltageCoefficient_per_K } = sheet
  if (!(voltageCoefficient_per_K >= -0.006 && voltageCoefficient_per_K <= -0.001))
    refuse(`the voltage coefficient ${voltageCoefficient_per_K * 100} %/K is outside -0.6 to -0.1 %/K`)
  if (!(currentCoefficient_per_K >= -0.001 && currentCoefficient_per_K <= 0.003))
    refuse(`the current coefficient ${currentCoefficient_per_K * 100} %/K is outside -0.1 to 0.3 %/K`)
}
