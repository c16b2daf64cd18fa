import tseslint from "typescript-eslint";

export default tseslint.config(
  {
    ignores: [
      "dist",
      "dist-*",
      ".dist*",
      "lib",
      "lib.new",
      "releases",
      "node_modules",
      "coverage",
      "reports",
      ".stryker-tmp",
    ],
  },
  ...tseslint.configs.recommended,
  {
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      eqeqeq: "error",
      "no-console": "off",
    },
  },
  {
    // The old form of a module, which the oldest Node reads too.
    files: ["**/*.cjs"],
    rules: { "@typescript-eslint/no-require-imports": "off" },
  },
  {
    // The metadata generator reads only any[][] (docs of custom-functions-metadata), so the declarations need it.
    files: ["src/functions/*.ts"],
    rules: { "@typescript-eslint/no-explicit-any": "off" },
  },
);
