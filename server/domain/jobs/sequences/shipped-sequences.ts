import { StepSequence } from '../step-sequence.ts'
import { CHANGE_OUT } from './change-out.ts'
import { CHANGE_OUT_BYPASSED } from './change-out-bypassed.ts'
import { CHANGE_SETTINGS } from './change-settings.ts'
import { COVER_INSTALLATION } from './cover-installation.ts'
import { INSPECTION_ROUND } from './inspection-round.ts'
import { OUT_OF_SERVICE } from './out-of-service.ts'
import { PERCH_REPLACEMENT } from './perch-replacement.ts'
import { REMOVE_BANK } from './remove-bank.ts'
import { REMOVE_BYPASSED } from './remove-bypassed.ts'
import { RETURN_TO_SERVICE } from './return-to-service.ts'
import { SET_BANK } from './set-bank.ts'

/**
 * The orders of steps that come with the program, until the utility sets its own. They are an aid
 * and a record: the utility's procedure and its qualified workers govern.
 */
export const SHIPPED_SEQUENCES: readonly StepSequence[] = [
  SET_BANK,
  CHANGE_OUT,
  CHANGE_OUT_BYPASSED,
  REMOVE_BANK,
  REMOVE_BYPASSED,
  OUT_OF_SERVICE,
  RETURN_TO_SERVICE,
  CHANGE_SETTINGS,
  COVER_INSTALLATION,
  PERCH_REPLACEMENT,
  INSPECTION_ROUND,
].map((sequence) => StepSequence.parse(sequence))
