import type { SavedProposal } from '#contract/proposals.ts'
import { type Asker, mayDo } from '#contract/rights.ts'
import type { Study } from '#contract/studies.ts'

type Result = NonNullable<Study['result']>

const TELLS_OF_NEST = /\bnests?\b/i

const NOT_SHOWN = 'Ruled out for a reason that is not shown in the role in which you act.'

/** Sentences of siting name nests with their distance: who may not see nests gets the others. */
export function proposalSeenBy(asker: Asker, saved: SavedProposal): SavedProposal {
  if (mayDo(asker, 'see nests and incidents')) return saved
  return { ...saved, proposal: withoutNestFlags(saved.proposal) }
}

export function studySeenBy(asker: Asker, study: Study): Study {
  const { result } = study
  if (result === undefined || mayDo(asker, 'see nests and incidents')) return study
  return {
    ...study,
    result: {
      ...result,
      proposals: result.proposals.map(withoutNestFlags),
      excluded: result.excluded.map(withoutNestReasons),
      notes: result.notes.filter(isOfOther),
    },
  }
}

function withoutNestFlags<Kind extends Pick<SavedProposal['proposal'], 'flags'>>(
  proposal: Kind,
): Kind {
  return { ...proposal, flags: proposal.flags.filter(isOfOther) }
}

function withoutNestReasons({ pole, reasons }: Result['excluded'][number]) {
  const others = reasons.filter(isOfOther)
  return { pole, reasons: others.length > 0 ? others : [NOT_SHOWN] }
}

function isOfOther(sentence: string): boolean {
  return !TELLS_OF_NEST.test(sentence)
}
