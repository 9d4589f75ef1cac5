import { poissonLimits } from '#domain/avian/account/poisson-limits.ts'
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
      ({foundInWords(account)}); {usd(spend.usd)} spent; {inspections.overdue} inspections overdue.
    </p>
  )
}

/** Nothing found never stands without what it still allows. */
function foundInWords({ electrocutions: { events, birds } }: YearAccount): string {
  if (events > 0) return counted(birds, 'bird')
  return `no proof of safety: up to ${poissonLimits(0).high.toFixed(1)} would agree with it`
}
