/** People of the clinic that browser tests run in. */
export const PEOPLE = {
  lead: { email: 'lead@harbour.example', name: 'R. Adeyemi', role: 'lead' },
  reader: { email: 'reader@harbour.example', name: 'K. Doan', role: 'read-only' },
  guessed: { email: 'guessed@harbour.example', name: 'M. Trevino', role: 'therapist' },
  second: { email: 'second@harbour.example', name: 'K. Dunmore', role: 'therapist' },
  /** Leads another clinic, one of ten thousand patients. */
  crowded: { email: 'lead@hill.example', name: 'S. Ferreira', role: 'lead' },
} as const;

/** Everyone's password. */
export const PASSWORD = 'taped twice on a tuesday';
