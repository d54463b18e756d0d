/** What can hurt people or property with each kind of cell, as plain sentences. Sources: common practice, from memory. */
import type { Chemistry } from './supply.ts'

/** What a caution is about: beside that it belongs. */
export type CautionSubject = 'cell' | 'charging' | 'panel' | 'box' | 'everything'

export interface Caution {
  readonly about: CautionSubject
  readonly text: string
}

const cell = (text: string): Caution => ({ about: 'cell', text })
const charging = (text: string): Caution => ({ about: 'charging', text })
const panel = (text: string): Caution => ({ about: 'panel', text })
const box = (text: string): Caution => ({ about: 'box', text })
const everything = (text: string): Caution => ({ about: 'everything', text })

const DEFER = everything(
  "The maker's data sheet, local codes and licensed practice come before anything this forecast says.",
)
const SHORT = cell(
  'A short circuit can burn and start fires: fuse the cell close to its terminal and insulate both poles.',
)
const SEALED = box(
  'A sealed box in the sun gets far hotter than the air: keep the cell shaded and inside its rated temperature.',
)
const PRIMARY = charging(
  'A primary cell must never be charged: no charger or panel may reach it, not even through a leaking diode.',
)
const MIXED = cell(
  'Do not mix old and new cells, or kinds of cells, in one holder: the weakest is driven into reversal and leaks.',
)
const LITHIUM_METAL = cell(
  'Lithium metal burns and reacts with water: do not crush, open, heat or solder the cell itself, and recycle it as battery waste.',
)
const NO_COLD_CHARGE = charging(
  'Do not charge below 0 °C, where lithium plates inside the cell, nor above 45 °C: the charger must measure the temperature and lock out.',
)
const DEEP = charging(
  'A cell that was discharged below its cut-off voltage can be damaged inside: do not recharge it, replace it.',
)
const LITHIUM_FIRE = cell(
  'A lithium cell that is overcharged, pierced or crushed can catch fire: use one with a protection circuit and a charger made for its chemistry.',
)
const OVERVOLTAGE = panel(
  'A panel at open circuit in the cold gives more than its rated voltage: the charger must bear it and still stop at full.',
)

const byChemistry: Readonly<Record<Chemistry, readonly Caution[]>> = {
  'Li-ion': [NO_COLD_CHARGE, DEEP, LITHIUM_FIRE, OVERVOLTAGE, SEALED, SHORT],
  LiFePO4: [NO_COLD_CHARGE, DEEP, LITHIUM_FIRE, OVERVOLTAGE, SEALED, SHORT],
  alkaline: [PRIMARY, MIXED, SEALED, SHORT],
  'Li-FeS2': [PRIMARY, MIXED, LITHIUM_METAL, SEALED, SHORT],
  NiMH: [
    charging(
      'Charge between 0 °C and 45 °C, and no faster than a tenth of the capacity an hour unless the charger detects the end.',
    ),
    MIXED,
    OVERVOLTAGE,
    SEALED,
    SHORT,
  ],
  'Li-MnO2': [PRIMARY, LITHIUM_METAL, SEALED, SHORT],
  'Li-SOCl2': [
    PRIMARY,
    LITHIUM_METAL,
    cell(
      'Thionyl chloride is toxic and corrosive: if the cell vents, leave, let it air, and do not breathe the fumes.',
    ),
    SEALED,
    SHORT,
  ],
  VRLA: [
    box('Lead-acid gives off hydrogen when charged: never in an airtight box, and no sparks near it.'),
    cell('Left discharged it sulphates, and the weak acid can freeze and burst the case: recharge it soon.'),
    cell('The acid burns skin and eyes, and lead is toxic: recycle it as battery waste.'),
    OVERVOLTAGE,
    SEALED,
    SHORT,
  ],
  supercapacitor: [
    cell(
      'A charged supercapacitor gives hundreds of amperes into a short circuit, and recovers a voltage after it was discharged: short it through a resistor before you touch it.',
    ),
    charging(
      'Never exceed its rated voltage, and balance parts in series: an overcharged one vents a flammable liquid.',
    ),
    OVERVOLTAGE,
    SEALED,
  ],
  ideal: [cell('An ideal cell does not exist: choose a real one before anything is built.')],
}

/** Sizes that a child can swallow: IEC names of lithium coin cells (CR, then diameter and height). */
const COIN = /^CR\d{4}$/
const COIN_CAUTION = cell(
  'Coin cells kill children who swallow them, within hours: close the holder with a screw, keep spares locked away, and go to a hospital at once, even on suspicion.',
)

/** Short sentences for one cell, gravest first; the last one defers to data sheet, codes and licensed practice. */
export function cautionsFor(chemistry: Chemistry, cellName: string): readonly string[] {
  return cautionsBySubject(chemistry, cellName).map(({ text }) => text)
}

/** The same, each with what it is about. */
export function cautionsBySubject(chemistry: Chemistry, cellName: string): readonly Caution[] {
  const coin = COIN.test(cellName) ? [COIN_CAUTION] : []
  return [...coin, ...byChemistry[chemistry], DEFER]
}
