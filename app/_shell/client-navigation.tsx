'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';

/**
 * Follows the page's plain links marked `data-soft` without a full load, and `data-soft="stay"` without moving on the page.
 *
 * One listener in place of a component for each link, so that a list of many stays light. Without script the links are links.
 */
export function ClientNavigation() {
  const router = useRouter();
  useEffect(() => {
    function follow(event: MouseEvent) {
      const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('a[data-soft]') : null;
      if (!link || event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      event.preventDefault();
      router.push(link.pathname + link.search, { scroll: link.dataset.soft !== 'stay' });
    }
    document.addEventListener('click', follow);
    return () => document.removeEventListener('click', follow);
  }, [router]);
  return null;
}
