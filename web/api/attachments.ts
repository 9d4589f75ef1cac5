import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Attachment, AttachQuery } from '#contract/attachments.ts'
import { call } from './call.ts'
import { sendWithProgress } from './send-with-progress.ts'

/** What a photo or report hangs on. */
export interface Holder extends Pick<AttachQuery, 'attachedTo' | 'attachedToId'> {
  readonly feederId: string
}

/** Photos and reports of one pole, proposal or item, newest first. */
export function useAttachments({ feederId, attachedTo, attachedToId }: Holder) {
  return useQuery({
    queryKey: ['attachments', feederId, attachedTo, attachedToId],
    queryFn: ({ signal }) =>
      call(
        'listAttachments',
        { params: { feederId }, query: { attachedTo, attachedToId } },
        signal,
      ),
  })
}

/** Address of the file itself, for pictures and links; the session's cookie opens it. */
export function addressOfAttachment(attachmentId: string): string {
  return `/api/attachments/${encodeURIComponent(attachmentId)}/file`
}

export interface ChosenFile {
  readonly file: File
  readonly note: string
}

/** Sending a file; `sentShare` goes from 0 to 1 as it leaves. */
export function useAttach({ feederId, attachedTo, attachedToId }: Holder) {
  const client = useQueryClient()
  const [sentShare, setSentShare] = useState(0)
  const attach = useMutation({
    mutationFn: ({ file, note }: ChosenFile) => {
      setSentShare(0)
      const fileName = file.name.slice(-200)
      const query = { attachedTo, attachedToId, fileName, ...(note && { note }) }
      return call(
        'attach',
        { params: { feederId }, query, file },
        undefined,
        sendWithProgress(setSentShare),
      )
    },
    onSettled: () => client.invalidateQueries({ queryKey: ['attachments', feederId] }),
  })
  return { attach, sentShare }
}

/** A photo or report in the version that the person saw. */
export type SeenAttachment = Pick<Attachment, 'id' | 'version'>

export function useAttachmentChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['attachments', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'attachment'] })
  }
  const inputOf = ({ id, version }: SeenAttachment) => ({
    params: { attachmentId: id },
    query: { version },
  })
  return {
    remove: useMutation({
      mutationFn: (seen: SeenAttachment) => call('deleteAttachment', inputOf(seen)),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: (seen: SeenAttachment) => call('restoreAttachment', inputOf(seen)),
      onSettled,
    }),
  }
}
