import type { YearAccount } from '#domain/avian/account/year-account.ts'
import { counted, usd } from '../../state/format.ts'

/** The year in two sentences. */
export function FirstLine({ account }: { readonly account: YearAccount }) {
  const { year, isUnderWay, days, polesDone, electrocutions, spend, inspections } = account
  return (
    <p className="bird-figures">
      <strong>
        {year}
        {isUnderWay && days ? `, until ${days.to}` : ''}: {counted(polesDone, 'pole')} done,{' '}
        {counted(electrocutions.events, 'electrocution')} found
      </strong>{' '}
      ({counted(electrocutions.birds, 'bird')}); {usd(spend.usd)} spent; {inspections.overdue}{' '}
      inspections overdue.
    </p>
  )
}
