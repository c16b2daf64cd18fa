// The declarations of Office.js are global, and its package cannot be imported: the page loads it from Microsoft's address.
// eslint-disable-next-line @typescript-eslint/triple-slash-reference
/// <reference path="../../node_modules/@microsoft/office-js/dist/office.d.ts" />
