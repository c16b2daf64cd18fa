import type { Recipe } from "./recipe";

const flat = (reflectance: number) => Array.from({ length: 16 }, () => reflectance);
const BANDS = Array.from({ length: 16 }, (_, band) => String(400 + 20 * band));

export const CORRECTING_A_BATCH: Recipe = {
  file: "recipe-correcting-a-batch.html",
  title: "Correcting a batch, and the recipe after it",
  situation:
    "A blend of four fifths grey and one fifth charcoal was to be made, and only the grey went in: something can be added and nothing taken out. Of another recipe a carded pad was measured and came out lighter than the target, so the recipe itself is corrected.",
  cells: [{ name: "BatchMass", value: 100, meaning: "kg in the bin" }],
  tables: [
    {
      name: "Batch",
      rows: [
        ["L*", "a*", "b*"],
        [60, 0, 0],
      ],
    },
    {
      name: "ToAdd",
      rows: [
        ["solid", "L*", "a*", "b*"],
        ["charcoal", 20, 0, 0],
        ["cream", 90, 0, 0],
      ],
    },
    {
      name: "Wanted",
      rows: [
        ["shade", ...BANDS],
        ["target", ...flat(0.2)],
      ],
    },
    {
      name: "Pad",
      rows: [
        ["shade", ...BANDS],
        ["pad", ...flat(0.21)],
      ],
    },
    {
      name: "Spectra",
      rows: [
        ["solid", ...BANDS],
        ["charcoal", ...flat(0.1)],
        ["cream", ...flat(0.5)],
      ],
    },
  ],
  formulas: [
    {
      name: "Approved",
      formula: "=YARN.MIXSHADE({0.8,0.2},{60,0,0;20,0,0})",
      meaning: "the shade that was to be made (L*, a*, b*)",
    },
    {
      name: "Additions",
      formula: "=YARN.MIXADD(Approved,Batch[#All],BatchMass,ToAdd[#All])",
      meaning: "what to add, and what the batch is then",
    },
    {
      name: "NextRecipe",
      formula: "=YARN.MIXCORRECT(Wanted[#All],{0.5;0.5},Pad[#All],Spectra[#All])",
      meaning: "the half-and-half recipe, corrected by its pad",
    },
  ],
  reading:
    "25 kg of charcoal bring the batch back: a fifth of the 125 kg that it then is. Of the second recipe the shares move towards the dark solid, because the pad was lighter than the model said.",
  cautions: ["shades", "dyes"],
  rests:
    "The model of the page of MIXSHADE. The addition follows from the recipe by arithmetic: 100 kg are four fifths of 125. Card a pad of the corrected recipe before the bulk.",
  words:
    "correct correction correcting batch off-shade off shade add additions too light too dark rescue re-blend reblend pad mistake",
};
