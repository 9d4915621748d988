import { useEffect, useState } from "react";

/** How long a place is stayed at before what is known of it is asked for, in milliseconds. */
const settledAfter = 200;

/** Whether a place has been stayed at for a while: who walks past it asks nothing. */
export function useSettled(key: string): boolean {
  const [settled, setSettled] = useState<string | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(key), settledAfter);
    return () => clearTimeout(timer);
  }, [key]);
  return settled === key;
}
