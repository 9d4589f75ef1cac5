import { useState } from 'react'
import type { Token, TokenMade } from '#contract/people.ts'
import { useTokenChanges, useTokens } from '../api/tokens.ts'
import { Moment } from '../record/moment.tsx'
import { momentInWords } from '../record/moment-in-words.ts'
import { ROLE_WORDS } from '../record/role-words.ts'
import { useNow } from '../record/use-now.ts'
import { Who } from '../record/who.tsx'
import { counted } from '../state/format.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { ShownOnce } from './shown-once.tsx'
import { TokenForm } from './token-form.tsx'

/** Tokens by which programs ask this server, each with rights and an end of its own. */
export function TokenPart() {
  const tokens = useTokens()
  const { revoke } = useTokenChanges()
  const [isMaking, setIsMaking] = useState(false)
  const [made, setMade] = useState<TokenMade | null>(null)
  if (tokens.isPending) return <LoadingNote what="Listing the tokens…" />
  if (tokens.isError) {
    return (
      <ErrorNote
        title="The tokens could not be listed."
        error={tokens.error}
        onRetry={() => void tokens.refetch()}
      />
    )
  }
  if (isMaking) {
    const onMade = (next: TokenMade) => {
      setMade(next)
      setIsMaking(false)
    }
    return <TokenForm onMade={onMade} onGiveUp={() => setIsMaking(false)} />
  }
  return (
    <div className="stack">
      {made && <MadeNote made={made} onDone={() => setMade(null)} />}
      <div className="row people-head">
        <span className="soft">{counted(tokens.data.length, 'token')}</span>
        <Button look={made ? undefined : 'main'} onClick={() => setIsMaking(true)}>
          Make a token…
        </Button>
      </div>
      {revoke.isError && <ErrorNote title="Not revoked" error={revoke.error} />}
      {tokens.data.length === 0 && (
        <EmptyNote what="No token yet. A program that reads or writes here needs one; make it with as few rights as it can do with." />
      )}
      <List label={`Tokens: ${tokens.data.length}`}>
        {tokens.data.map((token) => (
          <ListRow key={token.id}>
            <TokenRow
              token={token}
              isBusy={revoke.isPending}
              onRevoke={() => revoke.mutate(token.id)}
            />
          </ListRow>
        ))}
      </List>
    </div>
  )
}

function MadeNote({ made, onDone }: { readonly made: TokenMade; readonly onDone: () => void }) {
  const { token, secret } = made
  return (
    <section className="state-note invitation-link" aria-label={`Secret of ${token.name}`}>
      <p>
        <strong>Put this secret where {token.name} reads it.</strong> It is not shown again. The
        program sends it with every request, as <code>Authorization: Bearer …</code>.
      </p>
      <ShownOnce name="secret" text={secret} />
      <Button onClick={onDone}>Done with the secret</Button>
    </section>
  )
}

interface RowProps {
  readonly token: Token
  readonly isBusy: boolean
  readonly onRevoke: () => void
}

function TokenRow({ token, isBusy, onRevoke }: RowProps) {
  const { name, role, rights, madeBy, madeAt, endsAt, revokedAt, lastUsedAt } = token
  const hasEnded = Date.parse(endsAt) <= useNow()
  const isUsable = revokedAt === null && !hasEnded
  return (
    <div className="token-row" data-closed={!isUsable}>
      <span>
        <strong>{name}</strong>, {ROLE_WORDS[role]}
        <br />
        May {rights.join(', ')}.
        <br />
        <span className="small soft">
          {revokedAt !== null && <>Revoked {momentInWords(revokedAt)}. </>}
          {revokedAt === null && `${hasEnded ? 'Ended' : 'Ends'} ${momentInWords(endsAt)}. `}
          {lastUsedAt ? (
            <>
              Last used <Moment at={lastUsedAt} />.
            </>
          ) : (
            'Never used.'
          )}{' '}
          Made by <Who {...madeBy} />, {momentInWords(madeAt)}.
        </span>
      </span>
      {isUsable && (
        <Button
          look="danger"
          disabled={isBusy}
          aria-label={`Revoke the token ${name}`}
          onClick={onRevoke}
        >
          Revoke
        </Button>
      )}
    </div>
  )
}
