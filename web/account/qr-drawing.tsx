import qrcode from 'qrcode-generator'

/** Modules left white around the code, as ISO/IEC 18004 asks. */
const QUIET = 4

interface Props {
  readonly text: string
  /** What the code is for, for whoever cannot see it. */
  readonly label: string
}

/** A QR code (ISO/IEC 18004, correction level M) drawn dark on white in either theme. */
export function QrDrawing({ text, label }: Props) {
  const code = qrcode(0, 'M')
  code.addData(text)
  code.make()
  const side = code.getModuleCount() + 2 * QUIET
  return (
    <svg
      className="qr-drawing"
      viewBox={`0 0 ${side} ${side}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width={side} height={side} fill="#ffffff" />
      <path fill="#000000" d={pathOf(code)} />
    </svg>
  )
}

/** One unit square for each dark module. */
function pathOf(code: ReturnType<typeof qrcode>): string {
  const sides = [...Array(code.getModuleCount()).keys()]
  return sides
    .flatMap((row) =>
      sides.filter((column) => code.isDark(row, column)).map((column) => [column, row]),
    )
    .map(([column = 0, row = 0]) => `M${column + QUIET} ${row + QUIET}h1v1h-1z`)
    .join('')
}
