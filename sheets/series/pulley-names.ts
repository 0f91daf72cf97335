import type { Names } from '../also-called.ts';

/**
 * What lists of pulleys call the columns.
 *
 * A type alone is in most lists the belt's: only together with a word for the pulley does it mean a pulley's kind.
 */
export const pulleyNames = {
  Belt: `conveyor|belt name|conveyor name|belt no|belt number|belt id|conveyor no|conveyor number|conveyor id|
    conveyor tag|belt tag|band|bandnummer|band nr|gurt nr|förderer|förderband|bande|convoyeur|transporteur|cinta|
    banda|transportador|transportband|bandnaam`,
  Pulley: `pulley name|pulley no|pulley number|pulley id|pulley tag|drum|drum name|drum no|drum number|trommel|
    trommelname|trommel nr|tambour|nom du tambour|tambor|polea|nombre del tambor|nombre de polea|trommelnaam`,
  'Pulley type': `pulley kind|pulley function|pulley duty|drum type|drum function|trommelart|trommeltyp|
    type de tambour|fonction du tambour|tipo de tambor|tipo de polea|función del tambor|soort trommel|trommeltype`,
  x: `x coordinate|x position|x ordinate|horizontal position|chainage|x koordinate|coordonnée x|coordenada x|
    x coördinaat`,
  y: `y coordinate|y position|y ordinate|vertical position|elevation|y koordinate|coordonnée y|coordenada y|
    y coördinaat`,
  Diameter: `pulley diameter|drum diameter|pulley size|trommeldurchmesser|trommel durchmesser|diamètre du tambour|
    diámetro del tambor|diámetro de polea|trommeldiameter`,
  'Belt side': `side of belt|side|belt face|gurtseite|bandseite|côté de la bande|face de la bande|lado de la banda|
    lado de la cinta|bandzijde`,
  'Wrap angle': `arc of contact|angle of wrap|umschlingung|umschlingungswinkel|angle d'enroulement|
    ángulo de abrazamiento|ángulo de contacto|omslingeringshoek`,
  Group: 'pulley group|drum group|trommelgruppe|groupe de tambour|grupo de tambor|trommelgroep',
  'Local tension': `tension|belt tension|tension at pulley|tension on pulley|gurtspannung|tension au tambour|
    tensión en el tambor|bandspanning`,
} satisfies Names;
