export default function PlacePage() {
  return <p className="waiting">This page is being built.</p>
}
