// The code came behind the address's #, which no server is told; or it is typed.
const form = document.querySelector('form');
const told = document.querySelector('[role=alert]');
form.elements.code.value = decodeURIComponent(location.hash.slice(1));
history.replaceState(null, '', location.pathname);

form.addEventListener('submit', async (event) => {
  event.preventDefault();
  told.textContent = '';
  const { code, name } = form.elements;
  try {
    const answer = await fetch('/pair', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code: code.value, name: name.value }),
    });
    if (answer.ok) location.replace('/');
    else told.textContent = (await answer.json()).wrong;
  } catch {
    told.textContent = 'The machine that serves this page does not answer.';
  }
});
