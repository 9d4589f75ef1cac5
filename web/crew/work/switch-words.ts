import type { UnitState } from '#domain/jobs/unit-state.ts'

const TAP_WORDS: Readonly<Record<UnitState['tap'], string>> = {
  unknown: 'tap not known',
  'at neutral': 'at neutral, not proven',
  'proven at neutral': 'proven at neutral',
}

/** How a unit and the switches around it stand, one short statement each. */
export function switchesInWords(state: UnitState): string[] {
  const { isUp, isSourceClosed, isLoadClosed, neutralSide, isBypassClosed, isJumperOn } = state
  return [
    `bypass ${isBypassClosed ? 'closed' : 'open'}`,
    `S ${isSourceClosed ? 'closed' : 'open'}`,
    `L ${isLoadClosed ? 'closed' : 'open'}`,
    ...(neutralSide === 'solid' ? [] : [`neutral-side switch ${neutralSide}`]),
    `jumper ${isJumperOn ? 'on' : 'off'}`,
    ...(isUp
      ? [TAP_WORDS[state.tap], `tap drive ${state.isDriveOperative ? 'working' : 'inoperative'}`]
      : ['unit off the pole']),
    ...(state.isGrounded ? ['tested dead and grounded'] : []),
  ]
}
