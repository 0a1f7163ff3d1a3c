// A file as it is sent: a JPEG whole, anything else its first and last megabyte, cut here. For forms that say so with
// `data-ends`; every other file goes whole.
"use strict";

const Parts = (() => {
  const MEGABYTE = 1 << 20;

  const isJpeg = async (file) => {
    const first = new Uint8Array(await file.slice(0, 3).arrayBuffer());
    return first[0] === 0xff && first[1] === 0xd8 && first[2] === 0xff;
  };

  // The fields and the files of one form, each file as [field, bytes, name].
  const of = async (file, field) => {
    const time = ["file_time", String(file.lastModified || 0)];
    if (file.size === 0 || (await isJpeg(file))) return { fields: [time], files: [[field, file, file.name]] };
    return {
      fields: [time, ["name", file.name], ["size", String(file.size)]],
      files: [["head", file.slice(0, MEGABYTE), "head"], ["tail", file.slice(Math.max(0, file.size - MEGABYTE)), "tail"]],
    };
  };
  return { of };
})();
