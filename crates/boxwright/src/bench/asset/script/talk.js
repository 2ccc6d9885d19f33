// Talking to the program, and to whoever is at the page.

const token = document.querySelector('meta[name="token"]').content;
export const byId = (id) => document.getElementById(id);

export async function post(path, body, headers = {}) {
  try {
    return await fetch(path, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Token": token, ...headers },
      body: JSON.stringify(body),
    });
  } catch {
    say("The bench does not answer. Is it still running?");
    return null;
  }
}

export const worded = (problems) =>
  problems.map((p) => [p.place && p.place + ":", p.message, p.advice && "– " + p.advice].filter(Boolean).join(" ")).join(" ");

let saying;
export function say(text) {
  byId("say").textContent = text;
  clearTimeout(saying);
  saying = setTimeout(() => { byId("say").textContent = ""; }, 6000);
}
