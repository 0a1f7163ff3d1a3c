// A file that takes more than a second to make: says so while it is made, then opens it. Without a script the link opens
// it as any other.
document.addEventListener("click", async (event) => {
  const link = event.target.closest("[data-slow-print]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  const said = link.parentElement.querySelector(".slow-print");
  if (link.getAttribute("aria-disabled") === "true") return;
  link.setAttribute("aria-disabled", "true");
  const began = Date.now();
  const tell = () => { said.textContent = `${link.dataset.working}, ${Math.round((Date.now() - began) / 1000)} s`; };
  tell();
  const ticking = setInterval(tell, 1000);
  try {
    const answer = await fetch(link.href);
    if (!answer.ok || !(answer.headers.get("Content-Type") || "").startsWith("application/pdf")) throw new Error();
    const file = URL.createObjectURL(await answer.blob());
    const open = document.createElement("a");
    open.href = file;
    open.download = (/filename="([^"]+)"/.exec(answer.headers.get("Content-Disposition") || "") || [])[1] || "papers.pdf";
    open.click();
    setTimeout(() => URL.revokeObjectURL(file), 60000);
    said.textContent = link.dataset.done;
  } catch {
    said.textContent = link.dataset.failed;
  } finally {
    clearInterval(ticking);
    link.removeAttribute("aria-disabled");
  }
});
