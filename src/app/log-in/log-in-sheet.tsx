import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useEffect, useState } from 'react'
import { Input, Label, TextField } from 'react-aria-components'
import { useApi } from '../api/use-api.ts'
import fieldStyles from '../field/field.module.css'
import { Press } from '../field/press.tsx'
import frameStyles from '../frame/frame.module.css'
import { TitleBlock } from '../frame/title-block.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { touchWords } from '../strings/touch-words.ts'
import { tellOtherPages } from '../touch/other-pages.ts'
import { sessionKey } from '../touch/query-keys.ts'
import styles from './log-in.module.css'

/** A plain sheet that asks for the pass-phrase, in the place of all others. */
export function LogInSheet(): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const [phrase, setPhrase] = useState('')
  const trying = useMutation({
    mutationFn: () => api.logIn(phrase),
    onSuccess: (session) => {
      queries.setQueryData(sessionKey, session)
      tellOtherPages(session)
    },
  })
  useEffect(() => {
    const before = document.title
    document.title = frameWords.title(touchWords.logIn)
    return () => {
      document.title = before
    }
  }, [])
  const failure = trying.error === null ? null : sayFailure(trying.error)
  return (
    <div className={styles['board']}>
      <div className={frameStyles['sheet']}>
        <main className={frameStyles['drawn']}>
          <form
            className={styles['form']}
            // A phrase that was wrong would else keep the next from being sent.
            noValidate
            onSubmit={(event) => {
              event.preventDefault()
              if (phrase !== '' && !trying.isPending) trying.mutate()
            }}
          >
            <h1>{touchWords.logIn}</h1>
            <p>{touchWords.askPhrase}</p>
            <TextField
              type="password"
              name="pass-phrase"
              value={phrase}
              onChange={setPhrase}
              isInvalid={failure !== null}
              autoFocus
              className={fieldStyles['field'] ?? ''}
            >
              <Label>{touchWords.passPhrase}</Label>
              <Input
                autoComplete="current-password"
                className={fieldStyles['input'] ?? ''}
                aria-describedby={failure === null ? undefined : 'log-in-failure'}
              />
            </TextField>
            {failure === null ? null : (
              <p role="alert" id="log-in-failure" className={fieldStyles['refused']}>
                {failure}
              </p>
            )}
            <Press type="submit" main>
              {touchWords.logIn}
            </Press>
            <p className={styles['whence']}>{touchWords.whence}</p>
          </form>
        </main>
        <footer className={frameStyles['foot']}>
          <span />
          <TitleBlock title={touchWords.logIn} lines={[]} />
        </footer>
      </div>
    </div>
  )
}
