/** What the drawing's own symbols mean; each differs by more than its colour. */
export function DrawingKey() {
  return (
    <ul className="drawing-key small" aria-label="Symbols of the drawing">
      <li>
        <Swatch className="key-phase" /> energized, with its phase
      </li>
      <li>
        <Swatch className="key-grounded" /> grounded
      </li>
      <li>
        <Swatch className="key-none" /> wood, porcelain: neither
      </li>
      <li>
        <Swatch className="key-covered" /> covered
      </li>
      <li>
        <span className="key-badge">1</span> tightest gaps, surface to surface
      </li>
    </ul>
  )
}

function Swatch({ className }: { readonly className: string }) {
  return <span className={`key-swatch ${className}`} aria-hidden="true" />
}
