import { ACCOUNT_STEPS, type AccountStep } from '#contract/account.ts'

const IN_WORDS: Readonly<Record<AccountStep, (name: string) => string>> = {
  'password-changed': (name) =>
    `Changed the password of ${name}. Wherever else they were signed in, that ended.`,
  'password-set-anew': (name) =>
    `Set a new password of ${name} by a link. Sessions, second factor and passkeys from before ended.`,
  'second-factor-on': (name) => `Turned the second factor of ${name} on.`,
  'second-factor-off': (name) => `Turned the second factor of ${name} off.`,
  'passkey-added': (name) => `Added a passkey of ${name}.`,
  'passkey-removed': (name) => `Removed a passkey of ${name}.`,
  'other-sessions-ended': (name) => `Signed ${name} out everywhere else.`,
  'link-made': (name) => `Made a link by which ${name} can come in. Older links no longer work.`,
}

/** Null where the change of the person was none of their account. */
export function accountStepInWords(step: unknown, name: string): string | null {
  const known = ACCOUNT_STEPS.find((each) => each === step)
  return known ? IN_WORDS[known](name) : null
}
