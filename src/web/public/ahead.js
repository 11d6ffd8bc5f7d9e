// Asks for what Today will ask for while the page's script still travels: links, whose answers the page's own requests are then served from.
if (location.pathname === '/') {
  const answer = await fetch('/api/v1/session');
  const { clubs = [] } = answer.ok ? await answer.json() : {};
  const chosen = localStorage.getItem('club');
  const { clubId } = clubs.find((club) => club.clubId === chosen) ?? clubs[0] ?? {};
  const club = `clubs/${clubId}`;
  for (const path of clubId ? ['session', club, `${club}/today?whose=mine`] : []) {
    const link = document.createElement('link');
    link.rel = 'preload';
    link.as = 'fetch';
    link.crossOrigin = 'anonymous';
    link.href = `/api/v1/${path}`;
    document.head.append(link);
  }
}
