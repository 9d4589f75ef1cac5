import type { Phase } from '#domain/units/phases.ts'
import { PacketPart } from './packet-part.tsx'

/** What is written down of each unit when the crew leaves, as `UnitAsLeft` holds it. */
const UNIT_LINES = [
  'Serial number',
  'Rating, kVA and A',
  'Tap found',
  'Tap left',
  'Counter found',
  'Counter left',
  'Source volts before',
  'Load volts before',
  'Source volts after',
  'Load volts after',
  'Amperes after',
] as const

/** The record of what is left, to be filled in by hand and entered later. */
export function AsLeftBlank({ phases }: { readonly phases: readonly Phase[] }) {
  return (
    <PacketPart title="As left" startsPage>
      {phases.length > 0 && (
        <table className="paper-left-table">
          <thead>
            <tr>
              <th scope="col">Unit</th>
              {phases.map((phase) => (
                <th key={phase} scope="col">
                  {phase}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {UNIT_LINES.map((line) => (
              <tr key={line}>
                <th scope="row">{line}</th>
                {phases.map((phase) => (
                  <td key={phase} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <dl className="paper-lines">
        {['Done otherwise than planned', 'Remarks'].map((line) => (
          <div key={line} className="paper-lines-tall">
            <dt>{line}</dt>
            <dd />
          </div>
        ))}
        {['Crew', 'Signed for it, and day'].map((line) => (
          <div key={line}>
            <dt>{line}</dt>
            <dd />
          </div>
        ))}
      </dl>
    </PacketPart>
  )
}
