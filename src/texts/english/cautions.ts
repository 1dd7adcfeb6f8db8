/**
 * The usual short cautions, where a course gives none of its own. Common practice; no medical claim is made.
 * The level and hours of safe listening: ITU-T H.870.
 */
export const CAUTIONS = {
  sessions: 'Play in short sessions. If you feel light-headed, stop, sit down and breathe normally.',
  pain: 'Stop when your jaw, lips, tongue or neck hurt. Relax instead of forcing; bends do not need pressure.',
  sharing: 'Do not share a harp that has not been cleaned, and do not play when you are ill.',
  metal:
    'Covers, reed plates and reeds are metal, often with nickel. If your lips or hands itch, swell or get sore from them, stop and ask your doctor.',
  headphones: 'Keep the volume of headphones low, and take breaks from them.',
  doctor:
    'If your lungs, heart, jaw or teeth give you trouble, ask your doctor or dentist before you begin, and follow their advice instead of this course.',
} as const;
