/** How long before its start the honey of a booking may come in. Common practice, no source. */
export const earlyHours = 2;
