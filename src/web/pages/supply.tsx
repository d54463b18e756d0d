export default function SupplyPage() {
  return <p className="waiting">This page is being built.</p>
}
