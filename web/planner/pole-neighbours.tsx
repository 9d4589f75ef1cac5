import { useFeeder } from '../state/feeder.tsx'
import { hoverPole } from '../state/hover.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'

/** The next poles along the line, as steps. */
export function PoleNeighbours({ pole }: { readonly pole: string }) {
  const { upstreamOf, downstreamOf } = useFeeder()
  const upstream = upstreamOf.get(pole)
  const downstream = downstreamOf.get(pole) ?? []
  const step = (to: string, words: string) => (
    <Button
      key={to}
      onClick={() => select({ pole: to })}
      onPointerEnter={() => hoverPole(to)}
      onPointerLeave={() => hoverPole(null)}
    >
      {words}
    </Button>
  )
  return (
    <div className="row">
      {upstream !== undefined && step(upstream, `← ${upstream}, toward the source`)}
      {downstream.map((to) => step(to, `${to}, onward →`))}
      {upstream === undefined && downstream.length > 0 && <span className="soft">The source.</span>}
    </div>
  )
}
