import { page } from '$app/state';
import { tellFault } from '$lib/ui/tell-fault';
import type { HandleClientError } from '@sveltejs/kit';

/** An unexpected error on the way to a page, in the browser. */
export const handleError: HandleClientError = ({ error, status, message }) => {
  if (status === 404) return { message: 'There is no page at this address.' };
  if (status !== 500) return { message };
  return {
    message: 'Something went wrong here. What was already saved is still there.',
    errorId: tellFault(error, page.route.id ?? ''),
  };
};
