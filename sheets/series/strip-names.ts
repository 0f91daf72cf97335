import type { Names } from '../also-called.ts';

/** What lists of strips call the columns. */
export const stripNames = {
  Strip: 'strip name|strip type|material strip|name|streifen|bande intercalaire|tira',
  Supplier: 'vendor|maker|lieferant|fournisseur|proveedor|leverancier',
  'Roll length': 'length of roll|length per roll|roll|rollenlänge|longueur du rouleau|longitud de rollo|rollengte',
  'Roll price': 'price per roll|price of roll|price|rollenpreis|prix du rouleau|precio del rollo',
  Remark: 'note|notes|remarks|comment|comments|bemerkung|remarque|observaciones|opmerking',
} satisfies Names;
