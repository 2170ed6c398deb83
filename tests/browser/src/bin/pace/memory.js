// Before each page: keeps hold of the app's own memory, to be asked how large it is.
for (const way of ["instantiate", "instantiateStreaming"]) {
  const real = WebAssembly[way];
  WebAssembly[way] = async (...given) => {
    const made = await real.apply(WebAssembly, given);
    globalThis.paceMemory ??= (made.instance ?? made).exports.memory;
    return made;
  };
}
