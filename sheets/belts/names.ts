import type { Names } from '../also-called.ts';

/** What lists of belts call the columns. */
export const beltNames = {
  Belt: `conveyor|belt name|conveyor name|belt no|belt number|belt id|conveyor no|conveyor number|conveyor id|
    conveyor tag|belt tag|equipment no|equipment number|equipment id|tag no|tag number|asset number|tag|asset|
    equipment|name|id|band|bandnummer|band nr|gurt nr|gurtbezeichnung|förderer|förderband|anlage|bande|convoyeur|
    transporteur|repère|cinta|banda|nombre|transportador|transportband|bandnaam|nastro|correia|
    przenośnik|przenośnik taśmowy|taśmociąg|nr przenośnika`,
  Area: `location|plant|plant area|section|site|department|building|unit|line|bereich|standort|werk|abteilung|
    anlagenteil|zone|secteur|atelier|lieu|área|ubicación|sector|planta|gebied|locatie|afdeling|
    obszar|wydział|rejon|oddział|reparto|área da planta|setor`,
  Material: `product|commodity|carries|conveys|material carried|material conveyed|conveyed material|
    material handled|
    bulk material|fördergut|material transportado|producto|matière|matière transportée|produit|stortgoed|materiaal|
    materiał|nosiwo|materiale`,
  Width: `belt width|w|bw|bandbreite|breite|gurtbreite|largeur|largeur de bande|largeur bande|ancho|ancho de banda|
    ancho banda|ancho de cinta|breedte|bandbreedte|larghezza|largura|
    szerokość|szerokość taśmy|larghezza nastro|largura da correia`,
  Construction: `belt construction|belt type|belt material|belt designation|belt specification|belt spec|belt grade|
    belt class|designation|specification|spec|carcass type|carcass|type|gurttyp|bandtyp|typ|type de bande|
    désignation|
    construction de bande|tipo de banda|tipo de cinta|tipo|designación|bandtype|opbouw|
    typ taśmy|rodzaj taśmy|belt carcass|tipo di nastro|tipo de correia`,
  Thickness: `belt thickness|total thickness|overall thickness|belt total thickness|t|gurtdicke|banddicke|
    gesamtdicke|
    dicke|gurtstärke|épaisseur|épaisseur totale|épaisseur de bande|espesor|espesor total|espesor de banda|
    espesor banda|espesor de cinta|banddikte|dikte|totale dikte|
    grubość|grubość taśmy|spessore|spessore nastro|espessura|espessura da correia`,
  'Carcass thickness': `carcass|carcass thk|ply thickness|plies thickness|thickness of carcass|core thickness|
    cord diameter|karkassdicke|zugträgerdicke|épaisseur de carcasse|épaisseur carcasse|espesor de carcasa|
    espesor carcasa|karkasdikte`,
  'Top cover': `top cover thickness|cover|upper cover|carry cover|carrying cover|carry side cover|cover top|
    deckplatte|tragseite|deckplatte tragseite|obere deckplatte|revêtement supérieur|cubierta superior|
    recubrimiento superior|bovenlaag|draagzijde|
    okładka nośna|okładka górna|copertura superiore|cobertura superior`,
  'Belt rating': `rated belt tension|allowable tension|allowable working tension|permissible tension|
    permissible belt tension|rated tension|rated working tension|working strength|belt tension rating|
    max allowable tension|zulässige gurtspannung|zulässige zugkraft|zulässige spannung|tension admissible|
    tensión admisible|tensión permitida|toelaatbare trekkracht|toelaatbare spanning`,
  'Smallest pulley': `min pulley|minimum pulley|smallest pulley diameter|minimum pulley diameter|pulley min|
    pulley min dia|smallest drum|minimum drum|least pulley|
    min pull dia|min pull|tambor más pequeño|polea más pequeña|plus petite poulie|kleinste trommel|
    kleinster trommeldurchmesser|
    kleinste rolle|tambour minimum|tambour min|plus petit tambour|diamètre minimal tambour|tambor mínimo|
    tambor menor|
    polea menor|polea mínima|diámetro mínimo de polea|diámetro mínimo de tambor|kleinste trommeldiameter|
    najmniejszy bęben|średnica najmniejszego bębna|tamburo minimo|menor tambor`,
  'Head pulley':
    `head pulley diameter|head pull dia|head pull|head|head drum|drive pulley|drive drum|
    drive pulley diameter|head end pulley|
    d1|kopftrommel|antriebstrommel|kopftrommel durchmesser|tambour de tête|tambour tête|tambour de commande|
    tambor de cabeza|polea de cabeza|tambor motriz|polea motriz|koptrommel|aandrijftrommel|
    bęben czołowy|bęben napędowy|średnica bębna czołowego|średnica bębna napędowego|tamburo di testa|tamburo ` +
    `motore|tambor de acionamento|tambor de cabeça`,
  'Tail pulley': `tail pulley diameter|tail pull dia|tail pull|umkehrtrommel|tambor de retorno|tambour de retour|
    tail|tail drum|return pulley|tail end pulley|d2|hecktrommel|umlenktrommel|
    hecktrommel durchmesser|tambour de queue|tambour queue|tambour de pied|tambor de cola|polea de cola|
    tambor de reenvío|keertrommel|staarttrommel|
    bęben zwrotny|bęben ogonowy|średnica bębna zwrotnego|tamburo di coda|tamburo di rinvio|tambor traseiro`,
  'Pulley centres': `centre distance|centers distance|conveyor centres|distance between centres|conveyor length|
    length of conveyor|length|l|c c|c to c|achsabstand|bandlänge achsabstand|förderlänge|förderweg|länge|entraxe|
    longueur|longueur du convoyeur|distancia entre centros|entre centros|longitud|longitud del transportador|
    hartafstand|asafstand|lengte|
    rozstaw bębnów|długość przenośnika|długość|interasse|distância entre centros|dist entre centros`,
  Lift: `height|lift ht|rise|h|elevation|elevation change|vertical lift|lift height|vertical rise|
    height difference|hub|
    hubhöhe|förderhöhe|höhe|höhendifferenz|dénivelé|élévation|hauteur|desnivel|elevación|altura|hoogteverschil|
    hoogte|
    opvoerhoogte|
    wysokość podnoszenia|wznios|dislivello|elevação|desnível`,
  Speed: `belt speed|v|velocity|belt velocity|conveyor speed|geschwindigkeit|bandgeschwindigkeit|
    gurtgeschwindigkeit|geschw|
    vitesse|vitesse de bande|velocidad|velocidad de banda|velocidad de cinta|snelheid|bandsnelheid|
    prędkość|prędkość taśmy|velocità|velocità nastro|velocidade`,
  Power: `motor power|motor|motor rating|motor size|drive power|drive|installed power|drive rating|p|leistung|
    motorleistung|antriebsleistung|installierte leistung|puissance|puissance moteur|puissance installée|potencia|
    potencia de motor|potencia instalada|vermogen|motorvermogen|
    moc|moc silnika|moc napędu|potenza|potenza motore|potência|potência do motor`,
  Capacity: `throughput|design tph|tonnage|rate|q|mass flow|load|design capacity|conveying capacity|
    conveyor capacity|
    design rate|förderstrom|förderleistung|fördermenge|massenstrom|durchsatz|débit|capacité|caudal|capacidad|
    capaciteit|
    wydajność|przepustowość|portata|capacidade|vazão`,
  'Wrap angle': `arc of contact|angle of wrap|drive wrap|drive wrap angle|umschlingungswinkel|umschlingung|
    angle d'enroulement|ángulo de abrazamiento|ángulo de contacto|omspannen boog|omslingeringshoek`,
  'Drive friction': `friction coefficient|coefficient of friction|friction factor|mu|μ|reibwert|reibungszahl|
    reibungskoeffizient|coefficient de frottement|frottement|coeficiente de fricción|coeficiente de rozamiento|
    fricción|wrijving|wrijvingscoëfficiënt`,
  'Known tension': `tension|working tension|belt tension|operating tension|max tension|max working tension|
    max belt tension|line tension|tension per width|t1|gurtspannung|gurtzugkraft|zugkraft|bandzug|betriebsspannung|
    tension de bande|tension de service|tension maximale|tensión|tensión de trabajo|tensión de banda|tensión máxima|
    bandspanning|trekkracht`,
  'Take-up travel': `take up|tkup travel|tkup travel rem|take up travel remaining|travel left|take up travel left|
    take up left|take up available|take up stroke|travel|
    tensioning travel|tensioner travel|spannweg|restspannweg|course de tension|course du tendeur|course tendeur|
    carrera de tensado|carrera tensora|carrera del tensor|recorrido del tensor|spanweg|
    droga napinania|skok napinacza|corsa del tenditore|curso do esticador`,
  Skew: `skew angle|joint skew|joint angle|splice angle|splice skew|bias|bias angle|angle of skew|angle of joint|
    angle|cut angle|skew from edge|skew from belt edge|skew to edge|skew to belt edge|angle to edge|
    angle to belt edge|joint angle to edge|joint angle to belt edge|joint angle from edge|skew from square|
    skew from square line|angle from square|schrägwinkel zur kante|winkel zur kante|winkel zur gurtkante|
    schrägwinkel|
    schnittwinkel|schräge|schrägschnitt|verbindungswinkel|biais|angle de biais|angle de coupe|ángulo de corte|
    ángulo de empalme|sesgo|schuinte|snijhoek|
    kąt ukosu|kąt cięcia|angolo di taglio|ângulo de corte`,
  'Plate series': `series|plates|plate|plate type|joint plates|joint plate|plate size|fastener|fasteners|
    fastener type|fastener series|fastener size|mechanical fastener|verbinder|plattenverbinder|verbindertyp|
    plattenserie|agrafe|agrafes|série de plaques|plaques|grapa|grapas|serie de placas|placas|verbindingsplaten|
    plaatserie`,
  'Skive depth': `skiving|skiving depth|depth of skive|skived|skived depth|cover removed|schältiefe|abschälung|
    abgeschält|pelage|profondeur de pelage|desbaste|rebaje|afschilling`,
  Joints: `joint count|number of joints|number of splices|joints per belt|joints in belt|splices|splice count|fugen|
    verbindungen|anzahl verbindungen|stoßstellen|nombre de jonctions|jonctions|número de empalmes|número de uniones|
    empalmes|uniones|aantal verbindingen|
    liczba złączy|liczba połączeń|numero di giunzioni|número de emendas|emendas`,
  Installed:
    `installation date|last spliced|spliced on|date spliced|last splice|last joint change|
    last change of joint|install date|date installed|installed on|fitted|date fitted|fitted on|joint date|
    date of joint|joint fitted|joint installed|last joint|date of last joint|last joint date|splice date|date|
    einbaudatum|einbau|eingebaut|eingebaut am|montagedatum|datum|posé le|date de pose|date de jonction|
    date d'installation|
    fecha de instalación|fecha de montaje|fecha de empalme|instalado|fecha|inbouwdatum|geplaatst|
    data montażu|data złącza|data zabudowy|data giunzione|data di giunzione|data da emenda|último empalme|fecha ` +
    `último empalme|data di installazione`,
  'Hours per year': `running hours|h/a|h/y|h/yr|hrs/yr|hours/yr|hours p a|running hours per year|operating hours|
    operating hours per year|annual hours|yearly hours|annual running hours|hours|h per year|hours a year|
    hours year|
    hrs per annum|betriebsstunden|betriebsstunden pro jahr|laufstunden|stunden pro jahr|jahresstunden|heures par an|
    heures de marche|heures de service par an|horas por año|horas al año|horas de servicio|horas anuales|
    uren per jaar|draaiuren|bedrijfsuren`,
  'Joint life': `life|life of joint|expected life|expected joint life|joint life hours|service life|design life|
    splice life|standzeit|lebensdauer|lebensdauer verbindung|durée de vie|durée de vie jonction|vida útil|vida|
    duración|levensduur`,
  Service: `service flags|service conditions|conditions|environment|special service|special requirements|
    requirements|
    einsatz|einsatzbedingungen|umgebung|anforderungen|conditions de service|environnement|exigences|condiciones|
    condiciones de servicio|ambiente|requisitos|omgeving|omstandigheden`,
  'Belt mass': `belt weight|mass of belt|weight of belt|belt mass per length|belt weight per length|mass per metre|
    weight per metre|weight per foot|gurtgewicht|gurtmasse|bandgewicht|masse de bande|poids de bande|masse linéique|
    peso de banda|peso de la cinta|masa de banda|bandmassa`,
  'Drive pulley surface': `lagging|pulley lagging|drive lagging|drive pulley lagging|drive pulley face|
    drive surface|
    trommelbelag|belag antriebstrommel|reibbelag|garnissage|revêtement du tambour|garnissage du tambour de commande|
    revestimiento del tambor|recubrimiento del tambor motriz|trommelbekleding|bekleding aandrijftrommel`,
  'Drive pulley condition': `pulley condition|drive environment|zustand antrieb|zustand antriebstrommel|
    état du tambour|état du tambour de commande|condición del tambor|condición del tambor motriz|
    toestand aandrijftrommel`,
  'Take-up type': `take up type|tkup type|tu type|type of take up|take up system|tensioner type|tensioning system|
    spannvorrichtung|
    spanneinrichtung|art der spannvorrichtung|type de tendeur|système de tension|tendeur|tipo de tensor|
    sistema de tensado|tensor|spaninrichting|soort spaninrichting|
    rodzaj napinania|typ napinacza|napinacz|tipo di tenditore|tenditore|tipo de esticador|esticador`,
  'Special resistance': `extra resistance|additional resistance|other resistance|secondary and special resistance|
    sonderwiderstand|sonderwiderstände|zusatzwiderstand|résistance spéciale|résistance additionnelle|
    resistencia especial|resistencia adicional|bijzondere weerstand`,
  'Tension method': `tension calculated by|way to the tension|rechenweg|rechenweg der gurtspannung|
    méthode de la tension|voie de calcul|método de la tensión|berekeningswijze spanning`,
  'Skew hand': `hand|hand of skew|hand of cut|skew direction|direction of skew|skew side|schrägrichtung|
    richtung der schräge|sens du biais|côté du biais|sentido del sesgo|lado del sesgo|richting schuinte`,
  'Life in passes': `joint life in passes|passes|life in cycles|life in revolutions|lebensdauer in umläufen|umläufe|
    durée de vie en passages|passages|vida en pasadas|vida en vueltas|levensduur in omlopen`,
  Replaces: `joint replaces|old joint|renews|ersetzt|alte verbindung|remplace|jonction remplacée|
    reemplaza|unión reemplazada|vervangt`,
  'Replaced skew': `old skew|skew of old joint|old joint angle|alter schrägwinkel|ancien biais|biais remplacé|
    sesgo anterior|oude schuinte`,
  'Cut-out': `cut out|cut out length|length cut out|belt cut out|ausschnitt|ausschnittlänge|longueur coupée|
    longitud cortada|uitgesneden lengte`,
  Starting: `start type|starting method|type of start|motor start|anlauf|anlaufart|démarrage|type de démarrage|
    arranque|tipo de arranque|aanloop`,
  'Pulley group':
    `group of smallest pulley|smallest pulley group|gruppe der kleinsten trommel|groupe du plus petit ` +
    `tambour|
    grupo del tambor menor|groep kleinste trommel`,
  'Take-up position': `take up setting|take up used|take up stands at|position of take up|spannstellung|
    stellung der spannvorrichtung|position du tendeur|posición del tensor|stand spaninrichting`,
  'Roll length': `length of roll|length per roll|belt per roll|rollenlänge|gurtlänge je rolle|longueur du rouleau|
    longitud de rollo|longitud del rollo|rollengte`,
  Insert: `insert length|length of insert|insert piece|piece to insert|repair piece|einsatzstück|einsatzlänge|
    flickstück|pièce à insérer|longueur à insérer|inserto|longitud del inserto|inzetstuk`,
  'Spare roll diameter': `spare roll outer diameter|spare roll outside diameter|roll outer diameter|
    roll outside diameter|roll diameter|rollendurchmesser|außendurchmesser rolle|diamètre extérieur du rouleau|
    diámetro exterior del rollo|buitendiameter rol`,
  'Spare roll core diameter': `roll core|roll core diameter|rollenkern|kerndurchmesser|kerndurchmesser rolle|
    noyau du rouleau|diamètre du noyau|núcleo del rollo|diámetro del núcleo|kerndiameter rol`,
  'Drive place': `drive location|location of drive|lage des antriebs|antriebslage|
    position de la commande|posición del accionamiento|plaats van de aandrijving`,
  'Second drive share': 'share of second drive|second drive load share|secondary drive share',
  'Second wrap angle': 'second drive wrap|second drive wrap angle|secondary drive wrap angle|wrap angle second drive',
  'Take-up weight': `counterweight|counterweight mass|take up mass|gravity take up weight|tension weight|
    spanngewicht|gegengewicht|contrepoids|contrapeso|spangewicht`,
  'Take-up rope falls': 'rope falls|rope parts|parts of rope|number of rope falls',
  'Carry idler mass': 'carrying idler mass|carry idler rotating mass|rotating mass of carrying idlers',
  'Return idler mass': 'return idler rotating mass|rotating mass of return idlers',
  'Cut length': 'length of cut|joint length|splice length',
  Plates: 'number of plates|plate count|plates per joint|number of fasteners',
  Bolts: 'number of bolts|bolt count|bolts per joint',
  'Loop length': `belt length|total belt length|total length|length of belt|overall belt length|gurtlänge|bandlänge|
    longueur de bande|longueur totale de bande|longitud de banda|longitud de la banda|bandlengte`,
  'Joint age': 'age|age of joint|joint hours',
  Due: `due date|next due|next due date|joint due|next joint|replacement due|due on|fällig|fällig am|échéance|
    vencimiento`,
} satisfies Names;
