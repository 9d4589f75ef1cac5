import type { KitLine } from '#domain/jobs/job-plan.ts'

const GROUPS: readonly (readonly [KitLine['for'], string])[] = [
  ['bank', 'For the bank'],
  ['switching', 'Switches and jumpers'],
  ['birds', 'For birds'],
  ['labels', 'Labels'],
  ['tools', 'Tools and meters'],
  ['other', 'Besides'],
]

/** What goes onto the truck, by what it is for. */
export function KitList({ kit }: { readonly kit: readonly KitLine[] }) {
  if (kit.length === 0) return <p className="soft">No kit is listed for this job.</p>
  return (
    <>
      {GROUPS.map(([group, name]) => {
        const lines = kit.filter((line) => line.for === group)
        return (
          lines.length > 0 && (
            <div key={group}>
              <h4>{name}</h4>
              <ul className="job-lines">
                {lines.map((line) => (
                  <KitRow key={`${line.what} ${line.pole ?? ''} ${line.note ?? ''}`} line={line} />
                ))}
              </ul>
            </div>
          )
        )
      })}
    </>
  )
}

function KitRow({ line: { what, count, pole, note } }: { readonly line: KitLine }) {
  return (
    <li className="job-kit-row">
      <span className="job-kit-count">{count} ×</span>
      <span>
        {what}
        {pole !== undefined && <span className="soft">, pole {pole}</span>}
        {note && <span className="soft job-line-note">{note}</span>}
      </span>
    </li>
  )
}
