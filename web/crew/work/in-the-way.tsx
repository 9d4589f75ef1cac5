interface Props {
  readonly sentences: readonly string[]
  readonly isHoldPoint?: boolean
}

/** Why a step does not pass, one sentence a line. */
export function InTheWay({ sentences, isHoldPoint = false }: Props) {
  if (sentences.length === 0) return null
  return (
    <div className="in-the-way" role="alert">
      <strong>{isHoldPoint ? 'This hold point does not pass.' : 'Not entered.'}</strong>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </div>
  )
}
