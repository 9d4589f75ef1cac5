const SECRET_VARIABLES = ['CROSSARM_SECRET', 'CROSSARM_SIGN_ON_SECRET'] as const

/** Shorter ones stand in too many words to be taken out everywhere. */
const LEAST_CHARACTERS = 4

/** What the environment holds that no log may: passwords and secrets, as written and as decoded. */
export function secretsOf(env: NodeJS.ProcessEnv): string[] {
  const written = SECRET_VARIABLES.map((name) => env[name] ?? '')
  const address = env.DATABASE_URL ?? ''
  const password = URL.canParse(address) ? new URL(address).password : address
  return [...written, password, decoded(password)].filter(
    (secret) => secret.length >= LEAST_CHARACTERS,
  )
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
