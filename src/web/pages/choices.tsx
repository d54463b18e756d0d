export default function ChoicesPage() {
  return <p className="waiting">This page is being built.</p>
}
