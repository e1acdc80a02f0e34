import { invoke } from '@tauri-apps/api/core';
import type { Card, KeptJob, Store, Version } from './store';

interface StartMessage {
  device: string;
  cards: CardMessage[];
  old: { at_ms: number; text: string }[];
}

interface CardMessage {
  id: string;
  text: string | null;
}

interface KeptMessage extends Omit<KeptJob, 'versions'> {
  versions: { n: number; at_ms: number }[];
}

async function photo(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  const bytes = new Uint8Array(await invoke<ArrayBuffer>('store_photo', { name }));
  return bytes.length > 0 ? bytes : null;
}

/** The app's folder on disk. */
export function tauriStore(): Store {
  return {
    canTake: false,
    async start() {
      const { device, cards, old } = await invoke<StartMessage>('store_start');
      return { device, cards: cards.map(cardOf), old: old.map(({ at_ms, text }) => ({ at: at_ms, text })) };
    },
    cards: async () => (await invoke<CardMessage[]>('store_cards')).map(cardOf),
    create: (card, text) =>
      invoke<boolean>('store_create', { job: card.id, card: JSON.stringify(card), text }),
    async hold(job) {
      if (!(await invoke<boolean>('store_hold', { job }))) return null;
      return { letGo: () => void invoke('store_let_go', { job }) };
    },
    async read(job) {
      const { versions, ...rest } = await invoke<KeptMessage>('store_read', { job });
      return { ...rest, versions: versions.map(({ n, at_ms }): Version => ({ n, at: at_ms })) };
    },
    version: (job, n) => invoke<string | null>('store_version', { job, n }),
    aside: (job, name) => invoke<string | null>('store_aside', { job, name }),
    append: (job, _n, line) => invoke<void>('store_append', { job, line }),
    snapshot: (job, { n }, text, drop, journalFrom) =>
      invoke<void>('store_snapshot', { job, n, text, drop, journalFrom }),
    putCard: (card) => invoke<void>('store_put_card', { job: card.id, card: JSON.stringify(card) }),
    setAside: (job, n) => invoke<string>('store_set_aside', { job, n }),
    remove: (job) => invoke<void>('store_remove', { job }),
    forgetOld: () => invoke<void>('store_forget_old'),
    putPhoto: (bytes) => invoke<string>('store_put_photo', bytes),
    photo,
    hasPhoto: async (name) => (await photo(name)) !== null,
    forgetOtherPhotos: (named) => invoke<void>('store_forget_other_photos', { named }),
    // The app opens its files anew by itself once one of them has failed.
    refresh: () => undefined,
    onCleared: () => undefined,
  };
}

/** A job whose card was lost or spoilt is in the list all the same. */
function cardOf({ id, text }: CardMessage): Card {
  const nothing: Card = { id, name: '', made_at: 0, changed_at: 0, opened_at: 0, binned_at: null };
  try {
    return { ...nothing, ...(JSON.parse(text ?? '{}') as Partial<Card>), id };
  } catch {
    return nothing;
  }
}
