import './figure.css'

interface Props {
  /** As shown: "109.6". */
  readonly value: string
  /** Empty where the column or the words around say it. */
  readonly unit: string
  /** Opens the working of a computed figure. */
  readonly onWorking?: () => void
  /** For a screen reader, where the words around do not say it: "Lowest voltage". */
  readonly label?: string
}

/** A figure with its unit; where its working is known, a button that shows it. */
export function Figure({ value, unit, onWorking, label }: Props) {
  const text = (
    <>
      {value}
      {unit !== '' && <span className="figure-unit"> {unit}</span>}
    </>
  )
  if (!onWorking) return <span className="figure">{text}</span>
  const name = `${label ? `${label}: ` : ''}${value} ${unit}, show the working`
  return (
    <button type="button" className="figure-working" aria-label={name} onClick={onWorking}>
      {text}
    </button>
  )
}
