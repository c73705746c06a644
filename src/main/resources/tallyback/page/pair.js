// Pairs this browser, by the code behind the # of the address (which is never sent along with a page), or by what is typed.

const form = document.getElementById("pair");
const code = document.getElementById("code");
const go = document.getElementById("go");
const says = document.getElementById("pair-says");

/** Where somebody wanted to go who was asked to pair first: a page of here, never another site. */
const wanted = new URLSearchParams(location.search).get("to") || "/";
const to = /^\/(plans|jobs)(\?[^#]*)?$/.test(wanted) ? wanted : "/";

/** The name that this browser has in the log. */
function device() {
  const made = `p${crypto.randomUUID().slice(0, 8)}`;
  try {
    const known = localStorage.getItem("tallyback-device");
    if (known === null) {
      localStorage.setItem("tallyback-device", made);
    }
    return known ?? made;
  } catch (e) {
    return made;
  }
}

async function pair(digits) {
  says.textContent = form.dataset.pairing;
  go.disabled = true;
  try {
    const answer = await fetch("/pair", { method: "POST", body: JSON.stringify({ type: "pair", code: digits, device: device() }) });
    if (answer.ok) {
      location.replace(to);
      return;
    }
    says.textContent = (await answer.json()).says;
  } catch (e) {
    says.textContent = form.dataset.away;
  }
  go.disabled = false;
  code.select();
}

/** A link from elsewhere comes without the token that this device may have. */
async function isPaired() {
  try {
    return (await (await fetch("/health")).json()).paired === true;
  } catch (e) {
    return false;
  }
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  pair(code.value);
});

async function begin() {
  const digits = location.hash.slice(1);
  history.replaceState(null, "", "/pair");
  if (await isPaired()) {
    location.replace(to);
  } else if (/^[0-9]{8}$/.test(digits)) {
    code.value = digits;
    await pair(digits);
  } else {
    code.focus();
  }
}

begin();
addEventListener("hashchange", begin);
