import type { FormError, FormValues } from '$lib/ui/form-values';

/** A section's form that could not be taken: what is wrong and what was typed. */
export type Failed = { section: string; errors: FormError[]; values: FormValues } | null;
