import { useEffect, useState } from 'react'
import { createPortal } from 'react-dom'
import { useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { AccountFigures } from './account-figures.tsx'
import { FirstLine } from './first-line.tsx'
import { ReportFinds } from './report-finds.tsx'
import { ReportMap } from './report-map.tsx'
import { ReportWorkings } from './report-workings.tsx'
import { showAccount } from './show-account.ts'
import type { ShownAccount } from './use-account.ts'

const PAPERS = ['Letter', 'A4'] as const
type Paper = (typeof PAPERS)[number]

/** The account as a page of its own, on paper of either size. It stands in place of the whole desk. */
export function AccountReport({ shown }: { readonly shown: ShownAccount }) {
  const { units } = useSelection()
  const [paper, setPaper] = useState<Paper>(units === 'us' ? 'Letter' : 'A4')
  useHiddenDesk()
  const { record, accounted, sections } = shown
  const { year } = accounted.account
  const { name } = record.feeder.header
  return createPortal(
    <main className="report" data-paper={paper} aria-label={`Bird report ${year}`}>
      <div className="report-steps row">
        <Button onClick={() => showAccount({ year, isReport: false })}>Back to the desk</Button>
        {PAPERS.map((one) => (
          <Button key={one} isPressed={one === paper} onClick={() => setPaper(one)}>
            {one}
          </Button>
        ))}
        <Button look="main" onClick={() => window.print()}>
          Print
        </Button>
      </div>
      <article className="report-page">
        <ArrivingTitle of={String(year)}>
          Birds on {name}: report for {year}
        </ArrivingTitle>
        <p className="soft">
          Written {localToday()}. Voltage {record.feeder.header.nominalKv} kV;{' '}
          {accounted.account.poles} poles.
        </p>
        <FirstLine account={accounted.account} />
        <ReportMap record={record} accounted={accounted} />
        <AccountFigures sections={sections} isPrinted />
        <ReportFinds record={record} year={year} />
        <ReportWorkings sections={sections} />
        <p className="report-foot">
          Separations are held against guidance of 60 in across or 40 in up (APLIC, Suggested
          Practices for Avian Protection on Power Lines, 2006; from memory) unless the settings say
          otherwise. Birds and nests are protected by law: permits and the wildlife agencies decide.
          The utility’s safety rules and qualified workers govern all work.
        </p>
      </article>
    </main>,
    document.body,
  )
}

/** While the page stands, nothing behind it can be reached, on screen or on paper. */
function useHiddenDesk(): void {
  useEffect(() => {
    const root = document.getElementById('root')
    if (!root) return
    root.inert = true
    document.documentElement.classList.add('has-report')
    return () => {
      root.inert = false
      document.documentElement.classList.remove('has-report')
    }
  }, [])
}
