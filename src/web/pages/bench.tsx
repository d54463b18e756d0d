export default function BenchPage() {
  return <p className="waiting">This page is being built.</p>
}
