/** What feeds the device: each part with its numbers, the curve it implies, and what it leaves in hand. */
import '../supply/supply.css'
import { CapacitorPart } from '../supply/capacitor-part.tsx'
import { CellPart } from '../supply/cell-part.tsx'
import { ChargerPart } from '../supply/charger-part.tsx'
import { PanelPart } from '../supply/panel-part.tsx'
import { RegulatorPart } from '../supply/regulator-part.tsx'

export default function SupplyPage() {
  return (
    <>
      <CellPart />
      <RegulatorPart />
      <CapacitorPart />
      <PanelPart />
      <ChargerPart />
    </>
  )
}
