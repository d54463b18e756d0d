export default function WakePage() {
  return <p className="waiting">This page is being built.</p>
}
