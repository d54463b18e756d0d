export function Waiting({ what }: { readonly what: string }) {
  return (
    <p className="waiting" role="status">
      Opening {what} …
    </p>
  )
}
