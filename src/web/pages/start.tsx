export function StartPage() {
  return <p className="waiting">This page is being built.</p>
}
