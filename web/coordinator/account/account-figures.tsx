import { showWorking } from '../../state/working.ts'
import { Figure } from '../../ui/figure.tsx'
import {
  type AccountRow,
  type AccountSection,
  limitsInWords,
  unitBeside,
  valueInWords,
} from './account-row.ts'

interface Props {
  readonly sections: readonly AccountSection[]
  /** On paper no working can be opened; its formula and source stand at the end. */
  readonly isPrinted?: boolean
}

/** All figures with their units, limits and cautions. */
export function AccountFigures({ sections, isPrinted = false }: Props) {
  return sections.map(({ title, rows, cautions }) => (
    <section key={title} className="account-section" aria-label={title}>
      <h3>{title}</h3>
      <dl className="account-rows">
        {rows.map((row) => (
          <FigureRow key={row.what} row={row} isPrinted={isPrinted} />
        ))}
      </dl>
      <ul className="account-cautions">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  ))
}

function FigureRow({ row, isPrinted }: { readonly row: AccountRow; readonly isPrinted: boolean }) {
  const { working, what, note } = row
  const limits = limitsInWords(row)
  return (
    <div className="account-row">
      <dt>{what}</dt>
      <dd className="account-value">
        <Figure
          value={valueInWords(row)}
          unit={unitBeside(row)}
          label={what}
          {...(working && !isPrinted && { onWorking: () => showWorking(working) })}
        />
      </dd>
      {(limits || note) && (
        <dd className="account-note">
          {limits && <span>95 %: {limits}. </span>}
          {note}
        </dd>
      )}
    </div>
  )
}
