// What the page asks of the server, and the news that come from it.

export class Problem extends Error {}

const GONE =
  "notesgen does not answer any more. All that you answered before is kept. Start notesgen review again, " +
  "and open the address that it prints.";

async function request(path, options) {
  let answer;
  try {
    answer = await fetch(path, options);
  } catch {
    throw new Problem(GONE);
  }
  const said = answer.headers.get("content-type")?.startsWith("application/json") ? await answer.json() : null;
  if (!answer.ok) throw new Problem(said?.message ?? GONE);
  return said;
}

const posted = (body, type) => ({ method: "POST", body, headers: { "content-type": type } });

export const shelf = () => request("/api/shelf");

export const add = (file) =>
  request(`/api/shelf?${new URLSearchParams({ name: file.name })}`, posted(file, "application/octet-stream"));

// One lesson. Acts are sent one after another, in the order in which they were done.
export class Lesson {
  #last = Promise.resolve();

  constructor(name) {
    this.base = `/api/lesson/${encodeURIComponent(name)}`;
  }

  proof(since, width) {
    return this.#inTurn(() => request(`${this.base}?${new URLSearchParams({ since, width })}`));
  }

  words() {
    return request(`${this.base}/words`);
  }

  choices(query, width, revision) {
    return request(
      `${this.base}/choices?${new URLSearchParams({ query, width, revision })}`,
    );
  }

  // `wanted`: {phrase, revision}, or {query, option, revision}.
  sounds(wanted) {
    return request(`${this.base}/sounds?${new URLSearchParams(wanted)}`);
  }

  // `make()` is asked when its turn has come, so that it knows what all acts before it have changed. Where it
  // gives null, nothing is sent, and null comes back.
  act(make) {
    return this.#inTurn(() => {
      const sent = make();
      return sent && request(`${this.base}/act`, posted(JSON.stringify(sent), "application/json"));
    });
  }

  pack() {
    return this.#inTurn(() => request(`${this.base}/pack`, posted("{}", "application/json")));
  }

  // Calls `heard(revision)` at each change, also of another tab. A tab that is not seen does not listen: a
  // browser grants a server few connections.
  listen(heard) {
    let news = null;
    const tune = () => {
      if (document.visibilityState === "hidden") {
        news?.close();
        news = null;
      } else if (!news) {
        news = new EventSource(`${this.base}/news`);
        news.onmessage = (message) => heard(Number(message.data));
      }
    };
    document.addEventListener("visibilitychange", tune);
    tune();
  }

  #inTurn(task) {
    const done = this.#last.then(task);
    this.#last = done.catch(() => {});
    return done;
  }
}
