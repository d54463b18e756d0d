/** What cells are called at the counter and in the drawer: names that say another thing than the catalogue's, or less. */

/** In small letters, without blanks and hyphens: `Li-SOCl2`, `LiSOCl2` and `li socl2` are one name. */
export const plainName = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll('₂', '2')
    .replace(/[\s_-]+/g, '')

const ALKALINE = 'LR03, LR6, LR14 or LR20, by its size'
const MANGANESE = 'a coin cell as CR2032, or CR17345, by its size'
const METAL_HYDRIDE = 'HR6; for another size too, with its capacity ("capacity: 800 mAh")'
const LITHIUM_ION = 'Li-ion, with its capacity'
const IRON_PHOSPHATE = 'LiFePO4, with its capacity'
const LEAD_ACID = 'VRLA, with its capacity'
const SUPERCAPACITOR = 'supercapacitor, with its capacitance'
const THIONYL = 'ER14505; for another size too, with its capacity'

/** From memory: what each is by its IEC designation or chemistry, and what the file wants of it. */
const EVERYDAY: readonly (readonly [plain: readonly string[], meaning: string])[] = [
  [['aa', 'mignon', 'penlight'], 'LR6 (alkaline), FR6 (lithium) or HR6 (rechargeable)'],
  [['aaa', 'micro'], 'LR03 (alkaline), or HR6 with its capacity where it is rechargeable'],
  [['c', 'baby'], 'LR14'],
  [['d', 'mono'], 'LR20'],
  [['alkaline', 'alkalinemanganese'], ALKALINE],
  [['cr123', 'cr123a', 'cr17335'], 'CR17345, the IEC designation of that cell'],
  [['limno2', 'lithiummanganese', 'coincell', 'coin', 'buttoncell'], MANGANESE],
  [['lisocl2', 'lithiumthionylchloride', 'thionylchloride', 'litc'], THIONYL],
  [['lifes2', 'lithiumirondisulfide', 'lithiumaa'], 'FR6'],
  [['nimh', 'nickelmetalhydride', 'hr03', 'hr14', 'hr20'], METAL_HYDRIDE],
  [
    ['liion', 'lithiumion', 'lithium', 'lipo', 'lipoly', 'lithiumpolymer', '18650', '14500', '21700'],
    LITHIUM_ION,
  ],
  [['liiron'], 'LiFePO4 where iron phosphate is meant, or Li-ion, each with its capacity'],
  [['lfp', 'lifepo', 'lifepo4', 'lithiumironphosphate'], IRON_PHOSPHATE],
  [['lir2032', 'lir2450', 'lir2025'], 'Li-ion, with its capacity: it is rechargeable, and no CR cell'],
  [['leadacid', 'lead', 'agm', 'sla', 'pb', 'gel'], LEAD_ACID],
  [['supercap', 'ultracapacitor', 'ultracap', 'edlc', 'doublelayercapacitor'], SUPERCAPACITOR],
]

const MEANINGS = new Map(
  EVERYDAY.flatMap(([names, meaning]) => names.map((name) => [name, meaning] as const)),
)

/** What a name of everyday stands for in the catalogue's words; null where it is none. */
export const meaningOf = (name: string): string | null => MEANINGS.get(plainName(name)) ?? null
