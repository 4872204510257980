import type { Access } from '$lib/server/access/access';
import type { TheRecord } from '$lib/server/access/the-record';
import type { AboutPersons } from '$lib/server/about-persons';
import type { Store } from '$lib/server/storage/port';

declare global {
  namespace App {
    interface Error {
      message: string;
      errorId?: string;
      /** A file of the record cannot be read, and this page needs it. */
      damaged?: true;
    }
    interface Locals {
      store: Store;
      /** Who may ask; missing only where a test asks a page by itself. */
      access?: Access;
      record?: TheRecord;
      signedIn?: boolean;
      /** What is asked of the texts of this request; there for every change. */
      persons?: AboutPersons;
      /** ISO instant of this request. */
      now: string;
    }
  }
}

export {};
