import encodeQR from 'qr'
import './qr-drawing.css'

/** Modules left white around the code, as ISO/IEC 18004 asks. */
const QUIET = 4

interface Props {
  readonly text: string
  /** What the code is for, for whoever cannot see it. */
  readonly label: string
}

/** A QR code (ISO/IEC 18004, correction level M) drawn dark on white in either theme. */
export function QrDrawing({ text, label }: Props) {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: QUIET })
  const side = rows.length
  return (
    <svg
      className="qr-drawing"
      viewBox={`0 0 ${side} ${side}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width={side} height={side} fill="#ffffff" />
      <path fill="#000000" d={pathOf(rows)} />
    </svg>
  )
}

/** One unit square for each dark module. */
function pathOf(rows: readonly (readonly boolean[])[]): string {
  return rows
    .flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : '')))
    .join('')
}
