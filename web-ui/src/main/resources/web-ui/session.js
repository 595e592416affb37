// Who is signed in, where people have to: shown in the header, with a way out.

import { byId, make } from './dom.js';
import { learnSession, signOut } from './service.js';

/** Gives the name of who is signed in, or an empty one where nobody has to be. */
export async function setUpSession() {
  const session = await learnSession();
  if (!session.signIn) return '';
  if (!session.person) {
    location.assign('login.html');
    return '';
  }
  document.body.dataset.role = session.role;
  const out = make('button', 'link', 'Sign out');
  out.id = 'sign-out';
  out.type = 'button';
  out.addEventListener('click', async () => {
    await signOut();
    location.assign('login.html');
  });
  const who = make('p', 'quiet', `${session.person}, may ${session.role} `);
  who.id = 'who';
  who.append(out);
  document.querySelector('header .brand').after(who);
  const name = byId('person');
  if (name) {
    name.value = session.person;
    name.readOnly = true;
  }
  return session.person;
}
