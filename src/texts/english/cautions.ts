/**
 * The usual short cautions, where a course gives none of its own. Common practice; no medical claim is made.
 * The level and hours of safe listening: ITU-T H.870.
 */
export const CAUTIONS = {
  sessions: 'Play in short sessions. Stop, sit and breathe as usual if your head goes light.',
  pain: 'Stop when jaw, lips, tongue or neck hurt. Loosen rather than force; a bend never comes from pressure.',
  sharing: 'A harp goes into one mouth. Do not share one that has not been cleaned, and leave it when you are ill.',
  headphones: 'Keep headphones low, and give your ears a rest from them.',
  doctor:
    'If your lungs, heart, jaw or teeth give you trouble, ask your doctor or dentist before you begin, and follow them rather than us.',
} as const;
