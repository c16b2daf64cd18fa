/** Why a file could not be read or written, in words for a person. */
const WORDS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  ENOTDIR: "a part of its path is a file, not a folder",
  EISDIR: "it is a folder",
  EACCES: "you have no right to it",
  EPERM: "you have no right to it",
  EROFS: "the disk may only be read",
  EBUSY: "another program has it open",
  ENOSPC: "the disk is full",
  ENAMETOOLONG: "its name is too long",
};

export function fileTrouble(fault: unknown): string {
  const { code = "", message } = fault as NodeJS.ErrnoException;
  return WORDS[code] ?? message;
}
