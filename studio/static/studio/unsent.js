// The list of what is not yet sent: what was typed, when, on which page, and what the house said where it did not take
// it. Something the house did not take goes only when somebody says they have seen it.
"use strict";

(() => {
  const list = document.getElementById("entries");
  const nothing = document.getElementById("nothing");
  const words = list.dataset;
  const row = (entry) => {
    const item = document.createElement("li");
    item.className = "ruled";
    const said = document.createElement("p");
    const typed = document.createElement("strong");
    typed.textContent = entry.shown.join(", ");
    const at = new Date(entry.at).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" });
    const page = document.createElement("a");
    page.href = entry.page;
    page.textContent = words.page;
    said.append(typed, `, ${words.made.replace("{time}", at)} `, page);
    item.append(said);
    if (entry.says) {
      const why = document.createElement("p");
      why.textContent = `${words.refused} ${entry.says}`;
      const drop = document.createElement("button");
      drop.type = "button";
      drop.textContent = words.drop;
      drop.addEventListener("click", () => Queue.remove(entry.order).then(show));
      item.append(why, drop);
      for (const [field, part, name] of entry.files ?? []) {
        if (["head", "tail"].includes(field)) continue; // the two ends of a file that is still on its card
        const save = document.createElement("a");
        save.href = URL.createObjectURL(part);
        save.download = name;
        save.textContent = words.save;
        item.append(" ", save);
      }
    }
    return item;
  };
  const show = async () => {
    const entries = Queue.works ? await Queue.mine() : [];
    list.replaceChildren(...entries.map(row));
    nothing.hidden = entries.length > 0;
  };
  if (Queue.works) Queue.listen(show);
  show();
})();
