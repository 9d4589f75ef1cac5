import { PaperSheet } from '../../jobs/paper/paper-sheet.tsx'
import { localToday } from '../../state/today.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { AccountFigures } from './account-figures.tsx'
import { FirstLine } from './first-line.tsx'
import { ReportFinds } from './report-finds.tsx'
import { ReportMap } from './report-map.tsx'
import { ReportWorkings } from './report-workings.tsx'
import { showAccount } from './show-account.ts'
import type { ShownAccount } from './use-account.ts'

/** The account as a page of its own, on paper of either size. It stands in place of the whole desk. */
export function AccountReport({ shown }: { readonly shown: ShownAccount }) {
  const { record, accounted, sections } = shown
  const { year } = accounted.account
  const { name } = record.feeder.header
  return (
    <PaperSheet
      label={`Bird report ${year}`}
      backWords="Back to the desk"
      onBack={() => showAccount({ year, isReport: false })}
    >
      <div className="report-page">
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
      </div>
    </PaperSheet>
  )
}
