import { prepare } from "../src/build/prepare.mjs";

/** Makes the extension for LibreOffice Calc where it is out of date, and says where it is. */
await prepare();
console.log(
  "dist/yarn.oxt: install it in LibreOffice with Tools > Extensions, or open the file; guide/calc.html tells more",
);
