import tseslint from "typescript-eslint";

const TYPED = ["**/*.ts"];

export default tseslint.config(
  {
    ignores: [
      "dist",
      "dist-*",
      ".dist*",
      "lib",
      ".lib-*",
      "releases",
      "node_modules",
      "coverage",
      "reports",
      ".stryker-tmp",
    ],
  },
  ...tseslint.configs.recommended,
  ...tseslint.configs.recommendedTypeCheckedOnly.map((config) => ({ ...config, files: TYPED })),
  {
    files: TYPED,
    languageOptions: { parserOptions: { project: "tests/tsconfig.json", tsconfigRootDir: import.meta.dirname } },
    rules: {
      // What a worksheet shows for an error is thrown as it is: it is no fault of the program.
      "@typescript-eslint/only-throw-error": ["error", { allow: ["CellError", "Error", "Refusal"] }],
      "@typescript-eslint/unbound-method": ["error", { ignoreStatic: true }],
      // Excel's enumerations are plain words, and are compared with them.
      "@typescript-eslint/no-unsafe-enum-comparison": "off",
    },
  },
  {
    // Matchers and parsed answers are of type any.
    files: ["tests/**/*.ts", "vitest.*.ts"],
    rules: {
      "@typescript-eslint/no-unsafe-argument": "off",
      "@typescript-eslint/no-unsafe-assignment": "off",
      "@typescript-eslint/no-unsafe-call": "off",
      "@typescript-eslint/no-unsafe-member-access": "off",
      "@typescript-eslint/no-unsafe-return": "off",
      "@typescript-eslint/no-implied-eval": "off",
      "@typescript-eslint/require-await": "off",
    },
  },
  {
    // What a cell of the package for workbooks holds may be an object; the books put none there.
    files: ["sample-workbooks/**/*.ts"],
    rules: { "@typescript-eslint/no-base-to-string": "off" },
  },
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
