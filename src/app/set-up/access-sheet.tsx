import { useQuery, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useRef, useState } from 'react'
import { Form } from 'react-aria-components'
import { type MayJson, mays, type NewTokenJson, type TokenJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { TypedField } from '../field/typed-field.tsx'
import { Failure } from '../look/said.tsx'
import { rowWords } from '../strings/row-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords, tokenMays } from '../strings/set-up-words.ts'
import { LogOutPress } from '../touch/log-out-press.tsx'
import { PartFrame } from './part-frame.tsx'
import styles from './set-up.module.css'

/** Who may use the server: its pass-phrase, and tokens for programs. */
export function AccessSheet(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const session = useQuery({ queryKey: ['session'], queryFn: () => api.session() })
  const { data, error } = useQuery({ queryKey: ['tokens'], queryFn: () => api.tokens() })
  const [made, setMade] = useState<NewTokenJson | null>(null)
  const [asked, setAsked] = useState<string | null>(null)
  const [said, setSaid] = useState('')
  const status = useRef<HTMLParagraphElement>(null)
  const refresh = (): Promise<void> => queries.invalidateQueries()
  const takingBack = useSending({
    mutationFn: ({ id }: TokenJson) => api.removeToken(id),
    onSuccess: async (_, { id, name }) => {
      setAsked(null)
      setMade((last) => (last?.id === id ? null : last))
      setSaid(setUpWords.tokenGone(name))
      await refresh()
      // The press that had the focus is gone.
      status.current?.focus()
    },
  })
  return (
    <PartFrame part="access" error={error ?? session.error}>
      <section className={styles['section']}>
        <h2>{setUpWords.passPhrase}</h2>
        <p>
          {session.data?.log_in_needed === true
            ? setUpWords.logInNeeded
            : setUpWords.logInNotNeeded}
        </p>
        <p>
          {setUpWords.passPhraseSet} <code>{setUpWords.passPhraseCommand}</code>
        </p>
        {session.data?.log_in_needed === true ? <LogOutPress /> : null}
      </section>
      <section className={styles['section']}>
        <h2>{setUpWords.tokens}</h2>
        <p>{setUpWords.tokensLead}</p>
        {made === null ? (
          <NewToken
            onMade={async (token) => {
              setMade(token)
              setSaid('')
              await refresh()
            }}
          />
        ) : (
          <MadeToken made={made} onSeen={() => setMade(null)} />
        )}
        <p ref={status} tabIndex={-1} role="status" className={styles['said']}>
          {said}
        </p>
        {takingBack.error === null ? null : (
          <p role="alert" className={styles['refused']}>
            <Failure of={takingBack.error} />
          </p>
        )}
        {data?.tokens.length === 0 ? <p>{setUpWords.noTokens}</p> : null}
        <ul className={styles['tokens']}>
          {data?.tokens.map((token) => (
            <li key={token.id}>
              {asked === token.id ? (
                <>
                  <span role="status">{setUpWords.tokenAsk(token.name)}</span>
                  <span className={styles['presses']}>
                    <Press main onPress={() => takingBack.mutate(token)}>
                      {setUpWords.tokenYes}
                    </Press>
                    <Press onPress={() => setAsked(null)}>{setUpWords.tokenNo}</Press>
                  </span>
                </>
              ) : (
                <>
                  <span>
                    <b>{token.name}</b>{' '}
                    <span className={styles['soft']}>
                      {setUpWords.tokenMadeAt(token.made_at, token.may)}
                    </span>
                  </span>
                  <Press
                    aria-label={setUpWords.tokenBackOf(token.name)}
                    onPress={() => {
                      setAsked(token.id)
                      setSaid('')
                    }}
                  >
                    {setUpWords.tokenBack}
                  </Press>
                </>
              )}
            </li>
          ))}
        </ul>
      </section>
    </PartFrame>
  )
}

function NewToken({
  onMade,
}: {
  readonly onMade: (token: NewTokenJson) => Promise<void>
}): ReactNode {
  const api = useApi()
  const [name, setName] = useState('')
  const [may, setMay] = useState<MayJson>('look')
  const [refused, setRefused] = useState<string | null>(null)
  const making = useSending({
    mutationFn: () => api.addToken(name.trim(), may),
    onSuccess: onMade,
    onError: (fault) => setRefused(sayFailure(fault)),
  })
  return (
    <Form
      className={styles['form'] ?? ''}
      onSubmit={(event) => {
        event.preventDefault()
        if (name.trim() === '') return setRefused(rowWords.needed)
        making.mutate()
      }}
    >
      <TypedField
        label={setUpWords.tokenName}
        hint={setUpWords.tokenHint}
        text={name}
        onText={(next) => {
          setName(next)
          setRefused(null)
        }}
        refused={refused}
        needed
      />
      <ChoiceField
        label={setUpWords.tokenMay}
        words={mays.map((one) => [one, tokenMays[one]])}
        value={may}
        onChange={(next) => setMay(mays.find((one) => one === next) ?? 'look')}
      />
      <p className={styles['presses']}>
        <Press type="submit">{setUpWords.tokenMake}</Press>
      </p>
    </Form>
  )
}

/** A page that is not on https, nor on this machine, may not. */
const canCopy = isSecureContext

function MadeToken({
  made: { name, token },
  onSeen,
}: {
  readonly made: NewTokenJson
  readonly onSeen: () => void
}): ReactNode {
  const [said, setSaid] = useState('')
  return (
    <div className={styles['ask']}>
      <p role="status">{setUpWords.tokenMade(name)}</p>
      <p>
        <code className={styles['secret']}>{token}</code>
      </p>
      <p className={styles['presses']}>
        {canCopy ? (
          <Press
            onPress={() => {
              navigator.clipboard.writeText(token).then(
                () => setSaid(setUpWords.tokenCopied),
                // It can be copied by hand.
                () => setSaid(''),
              )
            }}
          >
            {setUpWords.tokenCopy}
          </Press>
        ) : null}
        <Press onPress={onSeen}>{setUpWords.tokenSeen}</Press>
        <span role="status">{said}</span>
      </p>
    </div>
  )
}
