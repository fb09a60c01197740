import 'server-only';
import type { LoadedPatient } from '@/app/_record/load-patient';
import { type KeptOrder, ordersOf } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { Therapist } from '@/db/therapist';
import { answerPrompt, asAsked } from '@/db/worklist/prompt-answers';
import { replaces } from '@/lib/orders/order-set';
import { answerTo, type MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { Prompt } from '@/lib/prompts/prompt';
import type { Order } from '@/lib/record/order';

type Of = Pick<LoadedPatient, 'record' | 'raised' | 'answers'>;
type Ordered = Pick<Order, 'limb' | 'side' | 'covers' | 'garment'>;

/** Whether an order is what a prompt about a piece asks for. */
export function isAbout(order: Ordered, pieces: readonly KeptPiece[], { piece: number }: Prompt['about']): boolean {
  const piece = pieces.find((one) => one.piece === number);
  return piece !== undefined && replaces(order, piece);
}

/** Whether a prompt, or one that stands behind it, asks for such an order. */
function asksForOrder(prompt: MergedPrompt, order: Ordered, pieces: readonly KeptPiece[]): boolean {
  return [prompt, ...prompt.also].some(({ action, about }) => action === 'order' && isAbout(order, pieces, about));
}

/** An order that was begun beside its prompt, not through it: the prompt is begun all the same. One that was declined stays declined. */
export async function noteBegun(therapist: Therapist, patientId: string, { record, raised, answers }: Of, order: Ordered): Promise<void> {
  for (const prompt of raised) {
    const last = answerTo(prompt, answers)?.answer;
    if (last === 'begun' || last === 'not-for-this-patient' || !asksForOrder(prompt, order, record.pieces)) continue;
    await answerPrompt(therapist, patientId, { ...asAsked(prompt), answer: 'begun', until: null, reason: null });
  }
}

/** An order that was given up before it was sent: its prompt is open again and not begun, unless another order stands for it. */
export async function noteGivenUp(
  therapist: Therapist,
  patientId: string,
  { record, raised, answers }: Of,
  orderId: string,
): Promise<void> {
  const orders = await ordersOf(therapist, patientId);
  const order = orders.find((one) => one.orderId === orderId);
  for (const prompt of order ? raised : []) {
    if (!order || answerTo(prompt, answers)?.answer !== 'begun' || !asksForOrder(prompt, order, record.pieces)) continue;
    if (proposedFor(prompt, orders, record.pieces)) continue;
    await answerPrompt(therapist, patientId, { ...asAsked(prompt), answer: 'open-again', until: null, reason: null });
  }
}

/** The order that was begun for a prompt and has not left; the newest of several. */
export function proposedFor(prompt: MergedPrompt, orders: readonly KeptOrder[], pieces: readonly KeptPiece[]): KeptOrder | undefined {
  return orders.find((order) => order.state === 'proposed' && asksForOrder(prompt, order, pieces));
}
