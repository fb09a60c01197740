'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';

/**
 * Follows plain links marked `data-soft` without a full load, and `data-soft="stay"` without moving on the page. Stands in the frame of every page.
 *
 * One listener in place of a component for each link: no link weighs in the script or in the data of a page. Without script they are links.
 */
export function ClientNavigation() {
  const router = useRouter();
  useEffect(() => {
    function follow(event: MouseEvent) {
      const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('a[data-soft]') : null;
      if (!link || event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      const isOnThisPage = link.pathname === location.pathname && link.search === location.search;
      if (link.hash && isOnThisPage) return;
      event.preventDefault();
      router.push(link.pathname + link.search + link.hash, { scroll: link.dataset.soft !== 'stay' });
    }
    document.addEventListener('click', follow);
    return () => document.removeEventListener('click', follow);
  }, [router]);
  return null;
}
