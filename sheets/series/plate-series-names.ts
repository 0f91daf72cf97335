import type { Names } from '../also-called.ts';

/** What lists of plate series call the columns. */
export const plateSeriesNames = {
  Series: `plate series|series name|plate type|fastener series|fastener type|fastener|plate|name|type|serie|série|
    plattenserie|typ|serie de placas|plaatserie`,
  Supplier: 'vendor|maker|source|lieferant|fournisseur|proveedor|leverancier',
  'Minimum thickness': `min belt thickness|minimum clamped thickness|thickness from|thickness min|belt thickness from|
    dicke von|dicke min|mindestdicke|épaisseur min|espesor mínimo|dikte min`,
  'Maximum thickness': `max belt thickness|maximum clamped thickness|thickness to|thickness max|belt thickness to|
    dicke bis|dicke max|höchstdicke|épaisseur max|espesor máximo|dikte max`,
  'Minimum pulley square': `pulley square|square pulley rating|min pulley|minimum pulley|minimum pulley diameter|
    least pulley|smallest pulley|pulley rating|pulley at 0|kleinste trommel|tambour min|tambor mínimo|
    kleinste trommeldiameter`,
  'Minimum pulley at 45': `45 degree pulley|pulley 45|min pulley at 45|minimum pulley at 45 degrees|
    pulley rating at 45 degrees|skew pulley|min pulley skew|trommel bei 45|tambour à 45|tambor a 45`,
  'Minimum pulley at 15': 'pulley at 15|pulley 15|min pulley at 15|minimum pulley at 15 degrees',
  'Minimum pulley at 22': `pulley at 22|pulley 22|min pulley at 22|minimum pulley at 22 degrees|pulley at 22.5|
    minimum pulley at 22.5`,
  'Minimum pulley at 30': 'pulley at 30|pulley 30|min pulley at 30|minimum pulley at 30 degrees',
  'Minimum pulley at 60': 'pulley at 60|pulley 60|min pulley at 60|minimum pulley at 60 degrees',
  'Tension rating': `rating|rated tension|max tension|max working tension|maximum belt tension|tension|joint rating|
    working tension|zulässige zugkraft|tension max|tensión máxima|max trekkracht`,
  Pitch: 'plate pitch|spacing|plate spacing|teilung|pas|paso|steek',
  'Plate width': `size along the cut|plate size along the cut|plattenbreite|largeur de plaque|ancho de placa|
    plaatbreedte`,
  'Minimum edge': 'edge distance|least edge distance|min edge distance|edge min|randabstand min|randabstand',
  'Maximum edge': 'greatest edge distance|max edge distance|edge max|randabstand max',
  'Hole setback': 'hole back|hole distance from the cut|distance from cut|hole to cut|lochabstand vom schnitt',
  'Hole spacing': 'gap|hole pitch|lochabstand|entraxe des trous',
  'Holes per side': 'per side|holes|holes per plate side|holes per plate per side',
  'Bolts per plate': `bolts|schrauben je platte|boulons par plaque|pernos por placa|tornillos por placa|
    bouten per plaat`,
  'Bolt length': 'bolt|short bolt|shorter bolt|schraubenlänge|longueur de boulon|largo de perno|boutlengte',
  'Long bolt above': 'bolt change thickness|thickness for longer bolt|longer bolt from thickness',
  'Long bolt length': 'long bolt|bolt length 2|longer bolt length',
  'Punch size': `punch|punch diameter|hole diameter|hole size|lochdurchmesser|diamètre de trou|diámetro de agujero|
    gatdiameter`,
  'Plate length': `plate depth|plate size square to the cut|length across the cut|length square to the cut|
    plattenlänge|longueur de plaque|largo de placa|plaatlengte`,
  'Minimum rim': 'min rim|rim distance|minimum rim distance|hole rim|minimum hole to edge|hole edge distance',
  'Flame resistant': 'underground|fire rated|fire resistant|flame proof|flammwidrig|ignifugé|ignífugo|brandwerend',
  'Non-magnetic': `nonmagnetic|magnet safe|antimagnetic|nichtmagnetisch|unmagnetisch|amagnétique|no magnético|
    niet magnetisch`,
  'Corrosion resistant': `stainless|corrosion proof|corrosion|rustproof|korrosionsbeständig|rostfrei|inoxydable|
    inoxidable|roestvrij`,
  'Food grade': 'food duty|food safe|lebensmittel|lebensmittelecht|alimentaire|alimentario|voedsel',
  Strip: 'strip name|strip type',
  'Strips below': 'strips under|strips under the belt|lower strips|bottom strips',
  'Strips above': 'strips over|strips over the belt|upper strips|top strips',
  'Plates per pack': 'pack size|plates per box|pack|plates in pack|packung',
  'Pack price': 'price per pack|plate pack price|price|price of pack|preis|prix|precio|prijs',
  'Bolts per pack': 'bolt pack size|bolts per box|bolts in pack',
  'Bolt pack price': 'price per bolt pack|price of bolt pack',
  Remark: 'note|notes|remarks|comment|comments|bemerkung|bemerkungen|remarque|observaciones|opmerking',
} satisfies Names;
