import type { AnyHeader } from '../../../sheets/index.ts';

/** What lists say for our fixed words, by the column that holds them. */

type ChoiceWords = Readonly<Record<string, string>>;

const takeUps: ChoiceWords = {
  automatic:
    'auto|grav|gravity|gravity take ' +
    'up|gtu|vgtu|hgtu|counterweight|weight|winch|gewicht|spanngewicht|winde|automatisch|contrepoids|treuil|automatique|' +
    'contrapeso|cabrestante|automático|contragewicht|lier',
  screw:
    'scrw|screw tu|screw take ' +
    'up|manual|spindle|fixed|schraube|spindel|spannspindel|fest|vis|manuel|fixe|tornillo|husillo|fijo|schroef|vast',
};

/** "Lagged" alone does not say with what, so it stands for nothing. */
const faces: ChoiceWords = {
  'bare steel':
    'bare|steel|plain|unlagged|not lagged|none|no lagging|smooth steel|stahl|blank|stahl blank|ohne|ohne ' +
    'belag|acier|nu|acier nu|sans|acero|desnudo|acero desnudo|sin|staal|kaal|geen',
  'grooved rubber':
    'rubber grooved|rubber, grooved|grooved|diamond rubber|herringbone rubber|diamond groove|diamond ' +
    'grooved|herringbone|gummi ' +
    'gerillt|caoutchouc rainuré|goma ranurada|gegroefd rubber',
  ceramic: 'ceramics|ceramic lagged|keramik|céramique|cerámica|cerámico|keramiek|keramisch',
};

/** Words for lagging that is not there: the pulley is bare then, which nobody said in so many words. */
const noLagging = new Set('none|no lagging|ohne|ohne belag|sans|sin|geen|nu|plain|blank'.split('|'));

/** Patterns that rubber has as a rule, though ceramic may have them too. */
const patterns = new Set('grooved|diamond groove|diamond grooved|herringbone'.split('|'));

/** Rubber that may be smooth: in the wet it grips like steel, grooved three times as well. */
const rubber = new Set(
  'rubber|rubber lagged|rubber lagging|plain rubber|smooth rubber|gummi|caoutchouc|goma|caucho|lagged|yes|y'.split('|'),
);

const isLagging = (header: string): boolean => header === ('Drive pulley surface' satisfies AnyHeader);

/** What is said of a word that was understood although it does not say it outright. */
export const toldWord = (header: string, text: string): string | undefined =>
  !isLagging(header)
    ? undefined
    : noLagging.has(text.trim().toLowerCase())
      ? 'read as bare steel'
      : patterns.has(text.trim().toLowerCase())
        ? 'read as grooved rubber, since it names a pattern'
        : undefined;

/** Why a word is not taken for one of ours that it looks like. */
export const unclearWord = (header: string, text: string): string | undefined =>
  isLagging(header) && rubber.has(text.trim().toLowerCase())
    ? 'it does not say whether the rubber is grooved; if it is smooth, bare steel is the cautious choice'
    : undefined;

const conditions: ChoiceWords = {
  dry: 'clean and dry|trocken|sec|seco|droog',
  wet: 'clean and wet|damp|nass|feucht|humide|mouillé|húmedo|mojado|nat',
  dirty:
    'wet and dirty|wet, dirty|muddy|mud|wet and muddy|schmutzig|nass und schmutzig|verschmutzt|sale|boueux|sucio|con ' +
    'barro|vuil|nat en vuil',
};

const hands: ChoiceWords = {
  right: 'r|rh|right hand|right-hand|rechts|droite|à droite|derecha|der',
  left: 'l|lh|left hand|left-hand|links|gauche|à gauche|izquierda|izq',
};

const kinds: ChoiceWords = {
  head:
    'head pulley|head drum|discharge|kopf|kopftrommel|abwurftrommel|tête|tambour de tête|cabeza|tambor de ' +
    'cabeza|kop|koptrommel',
  tail:
    'tail pulley|tail drum|return|return pulley|heck|hecktrommel|umkehrtrommel|queue|pied|tambour de ' +
    'pied|tambour de queue|cola|tambor de cola|staart|keertrommel',
  drive:
    'drive pulley|drive drum|driven|motor|antrieb|antriebstrommel|commande|tambour de commande|motriz|tambor ' +
    'motriz|aandrijving|aandrijftrommel',
  snub:
    'snub pulley|einschnürtrommel|ablenktrommel|contrainte|tambour de contrainte|snub tambor|tambor de ' +
    'contacto|drukrol',
  bend:
    'bend pulley|deflection|deflecting|umlenktrommel|umlenkung|renvoi|tambour de renvoi|desvío|tambor de ' +
    'desvío|reenvío|omlooptrommel',
  'take-up':
    'take up|takeup|take-up pulley|take up pulley|tension pulley|tensioning pulley|spanntrommel|tension|tambour de ' +
    'tension|tendeur|tensor|tambor tensor|spantrommel',
};

const sides: ChoiceWords = {
  'pulley side':
    'running|running side|inside|clean side|clean|pulley side|bottom|bottom cover|laufseite|innen|côté ' +
    'roulement|intérieur|lado de ' +
    'rodadura|interior|loopzijde',
  'carrying side':
    'carrying|outside|dirty side|dirty|carry|carry side|top|top cover|reverse|tragseite|außen|côté ' +
    'porteur|extérieur|lado de ' +
    'carga|exterior|draagzijde',
};

const byHeader: Readonly<Record<string, ChoiceWords>> = {
  'Take-up type': takeUps,
  'Drive pulley surface': faces,
  'Drive pulley condition': conditions,
  'Skew hand': hands,
  'Pulley type': kinds,
  'Belt side': sides,
} satisfies Partial<Record<AnyHeader, unknown>>;

/** A column's own words and what lists say for them, by their small letters. */
export function choiceSynonyms(header: string, choices: readonly string[]): ReadonlyMap<string, string> {
  const others = byHeader[header] ?? {};
  return new Map(
    choices.flatMap((choice) =>
      [choice, ...(others[choice]?.split('|') ?? [])].map((word) => [word.toLowerCase(), choice] as const),
    ),
  );
}
