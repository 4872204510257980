import type { Store } from '$lib/server/storage/port';

declare global {
  namespace App {
    interface Error {
      message: string;
      errorId?: string;
    }
    interface Locals {
      store: Store;
      /** ISO instant of this request. */
      now: string;
    }
  }
}

export {};
