import { error } from '@sveltejs/kit';

/**
 * A form is told to `hear` as it is read. What is sent as a form and cannot be read as one is the sender's slip, not ours:
 * 400, wherever it is read.
 */
export function heedForms(request: Request, hear: (form: FormData) => void): void {
  const read = request.formData.bind(request);
  request.formData = async () => {
    let form: FormData;
    try {
      form = await read();
    } catch (why) {
      // A body cut off or of another kind; what is too large stays what it is.
      if (why instanceof TypeError) error(400, 'What was sent is not a whole form. Nothing was changed.');
      throw why;
    }
    hear(form);
    return form;
  };
}
