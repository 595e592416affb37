// Signing in. The password goes to the service and is kept nowhere.

import { byId, say } from './dom.js';
import { signIn } from './service.js';

byId('login-form').addEventListener('submit', async (event) => {
  event.preventDefault();
  const button = byId('login-send');
  button.disabled = true;
  say(byId('login-problem'), '');
  try {
    await signIn(byId('login-name').value.trim(), byId('login-password').value);
    location.assign('./');
  } catch (failure) {
    say(byId('login-problem'), failure.message);
    byId('login-password').value = '';
    byId('login-password').focus();
  }
  button.disabled = false;
});
byId('login-name').focus();
