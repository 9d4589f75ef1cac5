import { drawnPairs, numbered } from '../../birds/drawn-pairs.ts'
import { gapInUnits } from '../../birds/gap-words.ts'
import { viewOfPair } from '../../birds/pair-labels.ts'
import { PoleTopView } from '../../birds/pole-top-view.tsx'
import type { PoleBirds } from '../../birds/use-pole-birds.ts'
import { framesOf } from '../../birds/view-frame.ts'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { type ToldGaps, toldGaps } from './told-gaps.ts'

/** Two of them stand side by side on the narrower paper. */
const VIEW_PX = 330
const LABEL_PX = 60

/** Both views of a pole top to scale, its tightest pairs numbered, and the same in words. */
export function PaperPoleTop({ birds: { assessment } }: { readonly birds: PoleBirds }) {
  const { units } = useSelection()
  const { poleTop, pairs } = assessment
  if (!poleTop) {
    return <p>The top of this pole cannot be drawn: its framing is not recorded.</p>
  }
  const all = numbered(pairs)
  const drawn = drawnPairs(all, null)
  return (
    <>
      <div className="paper-views">
        {framesOf(poleTop.parts, VIEW_PX, LABEL_PX).map((frame) => (
          <PoleTopView
            key={frame.view}
            frame={frame}
            parts={poleTop.parts}
            pairs={drawn.filter(({ pair }) => viewOfPair(pair) === frame.view)}
            lit={() => 'plain'}
            litPair={null}
            bird={null}
            units={units}
          />
        ))}
      </div>
      {drawn.length === 0 ? (
        <p>No two parts stand near enough for the design bird to bridge them.</p>
      ) : (
        <GapList told={toldGaps(all, drawn)} />
      )}
      <p className="small">
        Drawn from what is recorded and, where that is silent, from usual dimensions: look at the
        pole.
      </p>
    </>
  )
}

function GapList({ told: { gaps, more } }: { readonly told: ToldGaps }) {
  const { units } = useSelection()
  return (
    <ul className="job-lines">
      {gaps.map(({ number, pair, isDrawn }) => (
        <li key={number}>
          {number}: {pair.partA.label} and {pair.partB.label}, {gapInUnits(pair.distanceM, units)}{' '}
          apart{isDrawn ? '' : '; not drawn, since too many lines meet there'}.
        </li>
      ))}
      {more > 0 && (
        <li>{counted(more, 'wider gap')} that the bird can bridge are neither drawn nor listed.</li>
      )}
    </ul>
  )
}
