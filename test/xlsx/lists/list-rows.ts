/**
 * Lists in shapes that people have, all of one invented plant, as rows of cells: what `make-lists.ts` has several
 * programs write. A cell that begins with "=" is a formula, a day is a Date.
 */
export type ListCell = string | number | boolean | Date | null;

export interface ListSheet {
  readonly name: string;
  readonly rows: readonly (readonly ListCell[])[];
  readonly merges?: readonly string[];
  readonly hidden?: boolean;
  readonly looks?: ListLooks;
}

/** How a list is shown, as its writer is asked to. */
export interface ListLooks {
  readonly cells: readonly {
    readonly cell: string;
    readonly fill?: string;
    readonly color?: string;
    readonly bold?: true;
    readonly italic?: true;
    readonly underline?: true;
    readonly struck?: true;
    readonly size?: number;
    readonly turned?: number;
    readonly align?: 'left' | 'center' | 'right';
    readonly indent?: number;
    readonly vertical?: 'top' | 'middle';
    readonly wrap?: true;
    readonly bottom?: 'thin' | 'medium' | 'thick' | 'double';
    readonly format?: string;
    readonly comment?: string;
  }[];
  /** Fills of whole rows and columns, by their numbers. */
  readonly rowFills?: Readonly<Record<number, string>>;
  readonly columnFills?: Readonly<Record<number, string>>;
  /** Characters of each column. */
  readonly widths: readonly number[];
  readonly hiddenColumns: readonly number[];
  readonly hiddenRows: readonly number[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  /** Areas with what no book keeps. */
  readonly conditional: readonly string[];
  readonly ruled: readonly string[];
  /** Cells, counted from 0, at whose corner a picture stands. */
  readonly pictures: readonly { readonly row: number; readonly column: number }[];
}

const day = (year: number, month: number, date: number): Date => new Date(Date.UTC(year, month - 1, date));
const sheet = (rows: ListSheet['rows'], rest: Partial<ListSheet> = {}): ListSheet => ({ name: 'Belts', rows, ...rest });

/** A list in which lines, strokes and whole rows and columns say something. */
const dressed: readonly ListSheet[] = [
  sheet(
    [
      ['Belt', 'Width (mm)', 'Thickness (mm)', 'Smallest pulley (mm)', 'Remark'],
      ['D1', 800, 10, 400, null],
      ['D2', 800, 10, null, 'out of service'],
      ['D3', 1000, 12, 500, 'seen in May, quiet, to be looked at again once the new skirts are in'],
      ['D4', 650, 8, null, null],
    ],
    {
      looks: {
        cells: [
          { cell: 'A1', fill: '1F4E78', color: 'FFFFFF', comment: 'As on the plate at the tail.' },
          { cell: 'E1', turned: 90, size: 14 },
          { cell: 'A3', struck: true, bottom: 'medium' },
          { cell: 'B3', struck: true, bottom: 'medium' },
          { cell: 'E3', underline: true, bottom: 'double' },
          { cell: 'C2', align: 'center', vertical: 'middle' },
          { cell: 'A4', align: 'right', bottom: 'thin' },
          { cell: 'E4', wrap: true, align: 'left', indent: 2 },
          { cell: 'B5', size: 14 },
        ],
        rowFills: { 5: 'FCE4D6' },
        columnFills: { 4: 'DDEBF7' },
        widths: [12, 12, 12, 12, 24],
        hiddenColumns: [],
        hiddenRows: [],
        frozen: { rows: 1, columns: 1 },
        conditional: [],
        ruled: [],
        pictures: [],
      },
    },
  ),
];

/** A list that somebody has worked on for years. */
const coloured: readonly ListSheet[] = [
  sheet(
    [
      ['Belts of the wash plant', null, null, null, null, null],
      ['Cost code', 'Belt', 'Width (mm)', 'Thickness (mm)', 'Cost', 'Remark'],
      [7, 'W1', 800, 10, 1250.5, 'quiet'],
      [12, 'W2', 800, 10.25, 980, 'edge wear'],
      [31, 'W3', 1000, 12, 2100, null],
      [44, 'W4', 650, 8, 0.5, 'spare'],
    ],
    {
      merges: ['A1:F1'],
      looks: {
        cells: [
          { cell: 'A2', fill: 'DDDDDD', bold: true },
          { cell: 'B4', fill: 'FFFF00', comment: 'To be replaced in the spring stop.' },
          { cell: 'C2', comment: 'Measured across the belt.' },
          { cell: 'D4', color: 'C00000', bold: true },
          { cell: 'F3', italic: true },
          { cell: 'F5', fill: 'E2EFDA' },
          ...[3, 4, 5, 6].flatMap((row) => [
            { cell: `A${row}`, format: '000' },
            { cell: `E${row}`, format: '"$"#,##0.00' },
          ]),
        ],
        widths: [9, 14, 12, 15, 11, 30],
        hiddenColumns: [5],
        hiddenRows: [6],
        frozen: { rows: 2, columns: 2 },
        conditional: ['C3:C6', 'D3:D6'],
        ruled: ['C3:C6'],
        pictures: [{ row: 7, column: 1 }],
      },
    },
  ),
  {
    name: 'Contacts',
    rows: [
      ['Name', 'Since', 'Rate'],
      ['Workshop', day(2019, 4, 1), 85],
      ['Store', day(2021, 9, 15), 0.125],
    ],
    hidden: true,
    looks: {
      cells: [
        { cell: 'A3', fill: 'F2F2F2', comment: 'Ask for the night shift.' },
        { cell: 'C3', format: '0.0%' },
      ],
      widths: [22, 12, 8],
      hiddenColumns: [],
      hiddenRows: [],
      frozen: { rows: 1, columns: 1 },
      conditional: [],
      ruled: [],
      pictures: [],
    },
  },
];

export const listBooks: Readonly<Record<string, readonly ListSheet[]>> = {
  coloured,
  'coloured-open': coloured,
  dressed,
  'dressed-open': dressed,
  'us-clean': [
    sheet([
      [
        'Conveyor',
        'Area',
        'BW (in)',
        'Belt Spec',
        'FPM',
        'Design TPH',
        'HP',
        'Centers (ft)',
        'Lift (ft)',
        'Last Spliced',
      ],
      ['CV-101', 'Primary', 48, '3 ply 330 PIW 3/16 x 1/16', 450, 900, 75, 210.5, 38, day(2024, 3, 12)],
      ['CV-102', 'Primary', 36, '2-ply 220', 400, 450, 30, 120, 22, day(2023, 11, 2)],
      ['CV-103', 'Secondary', 42, '4 ply 600 PIW 1/4 x 1/16', 500, 800, 100, 380, 64, day(2025, 6, 30)],
      ['CV-104', 'Secondary', 30, '3 ply 330 PIW', 350, 300, 20, 96, 0, null],
    ]),
  ],
  messy: [
    sheet(
      [
        ['North quarry, belts in service'],
        [],
        ['Ident', null, 'Pulleys', null, 'Take-up', null, 'Cost', null],
        ['Belt', 'Width', 'Head', 'Smallest', 'type', 'travel left', 'spent', 'Remarks'],
        [null, 'in', 'in', 'in', null, 'in', 'k$', null],
        ['Crusher 1', 48, 36, 24, 'gravity', 40, 12.5, 'edge wear'],
        ['Crusher 2', 48, 36, 24, 'screw', 18, 8, null],
        ['Subtotal Primary Crushing', null, null, null, null, null, '=SUBTOTAL(9,G6:G7)', null],
        ['Screen 1', 36, 24, 18, 'gravity', 30, 4, 'yellow'],
        ['Screen 2', 36, 24, 18, 'winch', 30, 5.25, null],
        ['Subtotal Screening', null, null, null, null, null, '=SUBTOTAL(9,G9:G10)', null],
        ['Legend:'],
        ['yellow = to be replaced'],
        ['Prepared by the planning office, May'],
      ],
      { merges: ['A1:H1', 'A3:B3', 'C3:D3', 'E3:F3', 'G3:H3'] },
    ),
  ],
  spanish: [
    sheet([
      [
        'Cinta',
        'Sector',
        'Ancho (mm)',
        'Espesor (mm)',
        'Tambor más pequeño',
        'Tambor de retorno',
        'Velocidad (m/s)',
        'Instalado',
      ],
      ['T-1', 'Molienda', 900, 12, 400, 500, 1.6, day(2024, 2, 1)],
      ['T-2', 'Molienda', 1200, 15, 500, 630, 2.1, day(2023, 9, 15)],
      ['T-3', 'Puerto', 1400, 18, 630, 800, 3.15, null],
    ]),
  ],
  french: [
    sheet([
      ['Convoyeur', 'Largeur en mm', 'Épaisseur en mm', 'Vitesse en m/s', 'Entraxe (m)', 'Puissance (kW)', 'Remarque'],
      ['B-01', 650, 9.5, 1.25, 48.5, 15, 'rouleaux usés'],
      ['B-02', 800, 12, 1.6, 120, 37, null],
      ['B-03', 1000, 14.5, 2, 1250, 132, 'à l’arrêt'],
    ]),
  ],
  transposed: [
    sheet([
      ['Belt', 'K1', 'K2', 'K3'],
      ['Width (mm)', 800, 1000, 1200],
      ['Thickness (mm)', 10, 12, 16],
      ['Speed (m/s)', 1.6, 2, 2.5],
      ['Spliced on', day(2024, 1, 9), day(2024, 7, 22), day(2025, 3, 4)],
      ['Inspector', 'day shift', 'day shift', 'night shift'],
    ]),
  ],
  'two-areas': [
    { name: 'Cover', rows: [['Conveyor register'], ['Issue 7'], ['Kept by the stores']] },
    {
      name: 'Crushing',
      rows: [
        ['Conveyor', 'Width (mm)', 'Thickness (mm)', 'Speed (m/s)'],
        ['C1', 1000, 14, 2],
        ['C2', 1200, 16, 2.5],
      ],
    },
    {
      name: 'Stockyard',
      rows: [
        ['Conveyor', 'Width (mm)', 'Thickness (mm)', 'Speed (m/s)', 'Note'],
        ['S1', 800, 10, 1.6, 'reversible'],
        ['S2', 800, 10, 1.6, null],
      ],
    },
    {
      name: 'Contacts',
      rows: [
        ['Name', 'Phone'],
        ['Control room', '0 12 34'],
        ['Stores', '0 12 35'],
      ],
    },
  ],
  'units-row': [
    sheet([
      ['Conveyor', 'Width', 'FPM', 'H.P.', 'TPH', 'Full load current', 'Take-up'],
      [null, 'in', 'ft/min', 'hp', 'st/h', 'A', 'in'],
      ['CV-1', 36, 400, 25, 350, 31, 24],
      ['CV-2', 42, 450, 40, 500, 48, 30],
      ['CV-3', 48, 500, 75, 900, 88.5, 36],
    ]),
  ],
  'ambiguous-heads': [
    sheet([
      ['Name', 'Length', 'Tension', 'Date', 'Hours', 'Diameter', 'Qty', 'Width'],
      ['A', 210, 12, 45000, 4200, 500, 2, 800],
      ['B', 96, 8, 45100, 3900, 400, 1, 650],
      ['C', 340, 20, 45200, 5100, 630, 3, 1000],
    ]),
  ],
  'edge-angles': [
    sheet([
      ['Conveyor', 'Width (mm)', 'Thickness (mm)', 'Skew'],
      ['E1', 900, 10, 90],
      ['E2', 900, 10, 67.5],
      ['E3', 900, 12, 60],
      ['E4', 1000, 12, 45],
    ]),
  ],
  'edge-contradiction': [
    sheet([
      ['Conveyor', 'Width (mm)', 'Thickness (mm)', 'Skew'],
      ['E1', 900, 10, 90],
      ['E2', 900, 10, 22.5],
      ['E3', 900, 12, 0],
    ]),
  ],
  'loop-length': [
    sheet([
      ['Belt no.', 'Belt length (m)', 'Belt width (mm)', 'Belt thickness (mm)', 'Joints', 'Hours/yr'],
      ['7', 420.5, 1000, 14, 2, 5200],
      ['8', 96, 800, 10, 1, 4100],
      ['9', 1210, 1200, 18, 5, 6000],
    ]),
  ],
  'low-header': [
    sheet([
      ['Plant maintenance'],
      ['Sheet 3 of 7'],
      ['Revision C'],
      [],
      ['All dimensions in inches unless noted'],
      [],
      ['Tag', 'Belt width (in)', 'Thk (in)', 'Speed (fpm)', 'HP', 'Joint date'],
      ['101-CV', 48, '5/8', 500, '40HP', '3/12/2024'],
      ['102-CV', 36, '1/2', 450, '25HP', '11/28/2023'],
      ['103-CV', 36, '1/2', 450, '25HP', '4/5/2025'],
      ['Prepared by the day crew'],
      ['END'],
    ]),
  ],
  subtotals: [
    sheet([
      ['Belt', 'Area', 'Width (mm)', 'Joints', 'Plates in stock'],
      ['P1', 'Primary', 1200, 2, 80],
      ['P2', 'Primary', 1200, 3, 120],
      ['Primary Total', null, null, '=SUM(D2:D3)', '=SUM(E2:E3)'],
      ['S1', 'Secondary', 1000, 1, 40],
      ['S2', 'Secondary', 1000, 2, 40],
      ['Secondary Total', null, null, '=SUM(D5:D6)', '=SUM(E5:E6)'],
      ['Grand Total', null, null, '=D4+D7', '=E4+E7'],
    ]),
  ],
  'two-row-heads': [
    sheet(
      [
        ['Belt', 'Belt', null, 'Drive', null, 'Joint', null],
        [null, 'Width (mm)', 'Thickness (mm)', 'Power (kW)', 'Wrap (°)', 'Skew (°)', 'Installed'],
        ['H1', 800, 10, 22, 180, 22.5, day(2024, 5, 2)],
        ['H2', 1000, 12, 55, 210, 0, day(2023, 8, 30)],
        ['H3', 1000, 12, 55, 210, 45, null],
      ],
      { merges: ['A1:A2', 'B1:C1', 'D1:E1', 'F1:G1'] },
    ),
  ],
  ditto: [
    sheet([
      ['Conveyor', 'Area', 'Width (mm)', 'Material', 'Lagging'],
      ['D1', 'North', 800, 'granite', 'ceramic'],
      ['D2', '"', '"', '"', 'ditto'],
      ['D3', '″', 1000, 'do.', 'bare'],
      ['D4', 'South', 1000, 'sand', 'as above'],
    ]),
  ],
  'plates-alone': [
    {
      name: 'Plate series',
      rows: [
        [
          'Series',
          'Pitch (mm)',
          'Plate width (mm)',
          'Minimum thickness (mm)',
          'Maximum thickness (mm)',
          'Tension rating (kN/m)',
        ],
        ['Heron 8', 40, 36, 7, 11, 40],
        ['Heron 12', 50, 46, 10, 16, 63],
      ],
    },
    {
      name: 'Strips',
      rows: [
        ['Series', 'Belt width (mm)', 'Plates'],
        ['Heron 8', 800, 19],
        ['Heron 12', 1000, 19],
      ],
    },
  ],
  'mixed-units': [
    sheet([
      ['Belt', 'Width', 'Thickness', 'Speed', 'Centres', 'Smallest pulley'],
      ['M1', '48"', '18 mm', '500 fpm', '110\'-6"', '24 in'],
      ['M2', '1.2 m', '3/4"', '2.5 m/s', '96 m', '630 mm'],
      ['M3', '1050 mm', '16', 'approx. 2 m/s', '310 ft', '500'],
      ['M4', '1000 mm', 'TBC', '-', '45 m', 'min 400'],
    ]),
  ],
  dutch: [
    sheet([
      ['Transportband', 'Bandbreedte (mm)', 'Dikte (mm)', 'Bandsnelheid (m/s)', 'Vermogen (kW)', 'Opmerking'],
      ['TB1', 800, 10, 1.6, 18.5, 'buiten'],
      ['TB2', 1000, 12, 2, 30, null],
    ]),
  ],
  lagging: [
    sheet([
      ['Conveyor', 'Width (in)', 'Lagging', 'Take-up type', 'Service', 'Skew'],
      ['L1', 36, 'RUBBER', 'Gravity', 'UG, FRAS', 'square'],
      ['L2', 36, 'RUBBER', 'Manual', 'outdoor', 22.5],
      ['L3', 42, 'NONE', 'spring', 'none', '22.5'],
      ['L4', 42, 'NONE', 'Gravity', 'none', '45 deg'],
      ['L5', 48, 'RUBBER', 'Gravity', 'outdoor', 'sq'],
    ]),
  ],
  pulleys: [
    sheet([
      ['Belt', 'Width (mm)', 'Speed (m/s)'],
      ['R1', 800, 1.6],
      ['R2', 1000, 2],
    ]),
    {
      name: 'Pulleys',
      rows: [
        ['Belt', 'Pulley', 'Pulley type', 'Diameter (mm)'],
        ['R1', 'H', 'head', 500],
        ['R1', 'T', 'tail', 400],
        ['R2', 'H', 'Kopftrommel', 630],
        ['R2', 'B', 'bend', '315 mm'],
      ],
    },
  ],
  'three-heads': [
    sheet(
      [
        ['Belt register 2026'],
        ['Ident', null, 'Belt', null, null, 'Pulleys', null, null, 'Drive', null],
        [null, null, 'carcass', 'covers', null, 'drive end', null, 'return end', 'rating', 'surface'],
        ['Tag', 'Plant area', 'Strength', 'top', 'Width', 'Head', 'Snub', 'Tail', 'Power', 'Lagging'],
        [null, null, 'N/mm', 'mm', 'mm', 'mm', 'mm', 'mm', 'kW', null],
        ['X1', 'North', 630, 6, 1200, 800, 400, 630, 110, 'bare'],
        ['X2', 'North', 500, 4, 1000, 630, 315, 500, 75, 'bare'],
      ],
      { merges: ['A2:B2', 'C2:E2', 'F2:H2', 'I2:J2'] },
    ),
  ],
  'spare-rolls': [
    sheet([
      ['Belt', 'Width (mm)', 'Thickness (mm)'],
      ['A', 800, 10],
      ['B', 1000, 12],
      [],
      ['Spare belts in store'],
      ['Roll', 'Width (mm)', 'Length (m)'],
      ['R1', 800, 50],
      ['R2', 1000, 30],
    ]),
  ],
  formulas: [
    sheet([
      ['Conveyor', 'Width (mm)', 'Pulley centres (m)', 'Belt area', 'Cost'],
      ['F1', 800, 120, '=B2/1000*C2*2', '=D2*41.5'],
      ['F2', 1000, 96.5, '=B3/1000*C3*2', '=D3*41.5'],
      ['F3', 1200, 250, '=B4/1000*C4*2', '=D4*Rates!B1'],
    ]),
    { name: 'Rates', rows: [['per m²', 41.5]], hidden: true },
  ],
};

/** Lists as somebody typed or exported them as text. */
export const listTexts: Readonly<
  Record<string, { readonly text: string; readonly encoding: 'utf8' | 'latin1' | 'utf16le' }>
> = {
  'german.csv': {
    text:
      'Förderband;Gurtbreite [mm];Gurtdicke [mm];Geschwindigkeit [m/s];Achsabstand [m];Umkehrtrommel ' +
      '[mm];Eingebaut;Bemerkung\r\n' +
      'FB 1;1.200;12,5;1,68;1.250,5;630;14.05.2023;"läuft; leise"\r\n' +
      'FB 2;800;9;2,09;96;400;03.11.2024;\r\n' +
      'FB 3;650;8,2;1,31;48,25;315;;"zwei\r\nZeilen"\r\n',
    encoding: 'latin1',
  },
  'other-system.csv': {
    text:
      'EQUI_NO,DESCRIPTION,BELT_WIDTH_IN,HEAD_PULL_DIA,TAIL_PULL_DIA,MIN_PULL_DIA,BELT_SPD,LIFT_HT,TKUP_TYPE,' +
      'TKUP_TRAVEL_REM,SPLICE_CNT,FIRE_RATED,STPH,CREATED_BY,CHANGED_ON,COST_CENTER,STATUS\n' +
      '10004711,"Conveyor, tunnel",48,36,30,24,500,25,GRAVITY,36,3,Y,900,PLAN01,2024-02-01,4100,ACT\n' +
      '10004712,Conveyor to screen,36,24,24,18,450,40,MANUAL,12,1,N,450,PLAN01,2025-01-15,4100,ACT\n' +
      '10004713,"Conveyor ""old""",36,24,24,18,450,40,WINCH,,1,N,450,PLAN02,2025-01-15,4200,DEAC\n',
    encoding: 'utf8',
  },
  'polish.csv': {
    text:
      'Przenośnik;Szerokość taśmy [mm];Grubość [mm];Prędkość [m/s];Moc [kW];Długość [m];' +
      'Średnica bębna czołowego;Średnica bębna zwrotnego;Wydajność [t/h];Data montażu\n' +
      'T-1;1200;14,5;2,5;110;240;800;630;900;12.03.2024\nT-2;1.050;12,0;2,0;75,5;120,5;630;500;600;5.11.2023\n' +
      'Razem;;;;185,5;;;;;\n',
    encoding: 'utf8',
  },
  'italian.csv': {
    text:
      'Nastro;Larghezza (mm);Spessore (mm);Velocità (m/s);Potenza (kW);Interasse (m);Tamburo di testa;' +
      'Tamburo di coda;Data giunzione\nN1;800;10;1,6;22;48;400;315;13/03/2024\nN2;650;8;1,25;11;30;315;250;2/5/2023\n',
    encoding: 'utf8',
  },
  'spanish-sep.csv': {
    text:
      'sep=;\nTAG;Ancho banda (mm);Espesor (mm);Ø tambor motriz;Ø tambor cola;Dist. entre centros (m);Vel. (m/s);' +
      'Pot. (kW);Tipo de tensor;Carrera tensor (mm);Último empalme;Revestimiento\n' +
      'CT-01;1.050;12,7;630;500;145,3;1,8;45;contrapeso;900;02/01/2024;goma\n' +
      'CT-02;900;11;500;400;60;1,5;22;tornillo;300;30/06/2023;sin\n',
    encoding: 'latin1',
  },
  'french.txt': {
    text:
      '\uFEFFRepère\tLargeur bande (mm)\tÉpaisseur\tDébit (t/h)\tVitesse (m/s)\tTambour de tête\tDate de jonction\t' +
      'Revêtement\r\nC1\t1 000\t12,5\t850\t2,1\t630\t3 mars 2024\tcaoutchouc\r\n' +
      'C2\t800\t10\t420\t1,6\t500\t15/11/2023\tnu\r\nTotal\t\t\t1 270\t\t\t\t\r\n',
    encoding: 'utf16le',
  },
  'us-shop.csv': {
    text:
      'Conv No,Belt Wid,Belt Carcass,Spd (FPM),Rate (TPH),Motor HP,Ctrs,Lift,Lagging,T.U. Type,Splice Date\n' +
      '1,36",3 ply 330 PIW 3/16 x 1/16,400,350,25,"120\'",22\',RUBBER,Gravity,3/4/2024\n' +
      '2,42 in,2-ply 220,450,"1,250",40,"1,210 ft",0,NONE,Screw,11/28/2023\n' +
      '3,48,4 ply 600 1/4x1/8,500,900,75,210.5,38,Ceramic,winch,unknown\n' +
      '4,30,PN 315,350,300,20,96,0,N/A,None,Mar-24\n5,24,3-330,300,150,10,60,0,Herringbone,screw,2019\n',
    encoding: 'utf8',
  },
  'codes.csv': {
    text:
      'FUNC_LOC,EQUI_DESC,BLT_WIDTH_MM,BLT_THK_MM,BLT_SPD_MPS,DRV_PWR_KW,PLY_RATING,TKUP_TYPE,LAST_SPLICE_DT,STATUS\n' +
      'Q1-CV-001,Primary,1200,14,2.5,110,EP630/4,GRAV,20240312,CRTE\n' +
      'Q1-CV-002,Secondary,1000,12,2,75,EP500/3,SCRW,20231102,TECO\n',
    encoding: 'utf8',
  },
  'ditto.csv': {
    text:
      'Belt,Area,Width (mm),Thickness (mm),Lagging,Service\nB1,North,800,10,bare,none\nB2,",,do.,-"-,〃\n' +
      'B3,ditto,idem,12,\'\',-//-\nB4,",1000,",ceramic,"\n',
    encoding: 'utf8',
  },
  'totals.csv': {
    text:
      'Belt;Area;Width (mm);Power (kW);Joints\nA1;A;800;15;2\nA2;A;800;18;3\nTotal A;;;33;5\nB1;B;1000;22;1\n' +
      'Subtotal area B;;;22;1\nΣ;;;55;6\nGrand total;;;55;6\n\nLegend:\n* = shared drive\n1) measured 2024\n' +
      'A3;A;650;11;1\nNotes: see drawing 12\nChecked by: J. D.;;;;\nPrinted 2024-05-01\nPage 1 of 2\n',
    encoding: 'utf8',
  },
  'joints.csv': {
    text:
      'Belt,Joint,Width (mm),Installed\n1.1,1,800,2024-03-01\n1.1,2,800,2023-01-01\n1.10,1,1000,2024-05-01\n' +
      '007,1,1000,approx 2019\n',
    encoding: 'utf8',
  },
  'metres.tsv': {
    text: 'Belt\tWidth\tThickness\tSpeed\nM1\t0.8\t10\t1.6\nM2\t1.0\t12\t2.0\nM3\t1.2\t16\t2.5\n',
    encoding: 'utf8',
  },
  'text-numbers.csv': {
    text:
      'Belt,Width (mm),Centres (m),Hours per year,Installed\n' +
      'N1,"1,050","1,250.5","4,200",2024-05-14\nN2,800,96.25,"3,900",2023-02-28\nN3,650,48,950,not known\n',
    encoding: 'utf8',
  },
  'hp.tsv': {
    text:
      '\uFEFFConveyor\tBW (in)\thp\tSpeed ' +
      '(ft/min)\tH/A\r\n1\t36\t15\t400\t4200\r\n2\t36\t20\t450\t3900\r\n3\t48\t40\t500\t5200\r\n',
    encoding: 'utf16le',
  },
  'plates.csv': {
    text:
      'sep=;\nSeries;Pitch (mm);Plate width (mm);Minimum thickness (mm);Maximum thickness (mm)\n' +
      'Heron 8;40;36;7;11\nHeron 12;50;46;10;16,5\n',
    encoding: 'utf8',
  },
  'pasted.txt': {
    text:
      'Hello, the belts of the wash plant as asked:\n\nConveyor\tWidth (mm)\tThickness (mm)\tSkew hand\n' +
      'W1\t800\t10\tRH\nW2\t800\t10\tLH\nW3\t1000\t12\t?\n\nRegards, the wash plant\n',
    encoding: 'utf8',
  },
  'bars.txt': {
    text: 'Belt|Width (mm)|Thickness (mm)|Remark\nB1|800|10|new in May\nB2|1000|12|\nB3|1200|14|spare, in store\n',
    encoding: 'utf8',
  },
  'us-dates.csv': {
    text:
      'Conveyor,Width (in),Last splice,Cost\n' +
      'U1,36,11/15/2024,"$1,250.00"\nU2,36,3/4/2025,$980.00\nU3,48,12/24/2023,$2100\n',
    encoding: 'utf8',
  },
};
