import { keptDrafts } from '../../record/kept-drafts.ts'
import { ItemDraft } from './item-draft.ts'

/** Drafts of the item form, by feeder and item. */
export const itemDrafts = keptDrafts('crossarm.item-drafts', ItemDraft)
