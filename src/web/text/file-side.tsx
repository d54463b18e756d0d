export default function FileSide({ onClose }: { readonly onClose: () => void }) {
  return (
    <aside className="text-side">
      <button type="button" onClick={onClose}>
        Close
      </button>
    </aside>
  )
}
