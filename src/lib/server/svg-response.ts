/** A drawing as a file to keep; its name says what it is and not whose it is. */
export const svgResponse = (svg: string, name: string): Response =>
  new Response(svg, {
    headers: {
      'content-type': 'image/svg+xml; charset=utf-8',
      'content-disposition': `attachment; filename="${name}.svg"`,
    },
  });
