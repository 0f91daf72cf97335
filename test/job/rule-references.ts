/** What the rules say that the cautions name, in short: a caution names none that is not here. */

interface RuleReference {
  readonly reference: string;
  readonly says: string;
  /** Absent where the rule's own text was read; 'from memory' where it is recalled. */
  readonly mark?: 'from memory';
}

export const ruleReferences: readonly RuleReference[] = [
  {
    reference: '29 CFR 1910.147',
    says:
      'prepare, shut down, isolate, lock or tag, release stored energy and keep checking that it does not build ' +
      'up again, verify before work',
  },
  {
    reference: '29 CFR 1926.555(a)',
    says: 'start warning, emergency stop that needs a reset, lock out and tag during repair',
  },
  {
    reference: '30 CFR 56.14105',
    says: 'surface metal and nonmetal mines: repair only with power off and the machine blocked against motion',
  },
  { reference: '30 CFR 57.14105', says: 'underground metal and nonmetal mines: the same' },
  { reference: '30 CFR 75.1725(c)', says: 'underground coal mines: the same' },
  { reference: '30 CFR 75.1731(d)', says: 'joints in approved underground belt must keep it flame resistant' },
  { reference: 'EN 620:2021', says: 'belt conveyors for bulk: safety, maintenance included' },
  { reference: 'EN 619:2022', says: 'conveyors for unit loads: safety, maintenance included' },
  { reference: 'ISO 12100', says: 'risk assessment of machinery', mark: 'from memory' },
  { reference: 'ISO 14118', says: 'prevention of unexpected start-up', mark: 'from memory' },
  { reference: 'AS/NZS 4024.3610', says: 'safety of conveyors', mark: 'from memory' },
  { reference: 'CSA Z460', says: 'control of hazardous energy', mark: 'from memory' },
  {
    reference: '29 CFR 1910.252(a)',
    says: 'clear combustibles away or guard them, keep extinguishers ready, fire watch for half an hour after hot work',
    mark: 'from memory',
  },
  {
    reference: '29 CFR 1910.272(f)',
    says: 'grain handling: a permit for hot work; its definition names welding, cutting, brazing and what makes flame',
    mark: 'from memory',
  },
  { reference: '29 CFR 1910.134', says: 'respiratory protection', mark: 'from memory' },
  { reference: '29 CFR 1910.95', says: 'exposure to noise at work', mark: 'from memory' },
];
