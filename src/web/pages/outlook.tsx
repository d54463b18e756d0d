export default function OutlookPage() {
  return <p className="waiting">This page is being built.</p>
}
