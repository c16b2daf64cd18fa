import { prepare } from "../src/build/prepare.mjs";

/** Makes the extension for LibreOffice Calc where it is out of date, and says where it is. */
await prepare();
console.log("dist/yarn.oxt: open it with LibreOffice; dist/guide/libreoffice-calc.html tells how it is installed");
