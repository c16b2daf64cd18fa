import type { Recipe } from "./recipe";

export const SLIVER_OR_LAYDOWN: Recipe = {
  file: "recipe-sliver-or-lay-down.html",
  title: "Blend in the sliver, or by lay-down",
  situation:
    "The same recipe can be creeled up at the gill as whole slivers of dyed top, or weighed out in layers of loose dyed wool before the card. A gill takes whole slivers only, a scale its own steps, and each misses the recipe by something.",
  cells: [
    { name: "Ends", value: 16, meaning: "slivers that the gill takes at once" },
    { name: "BatchMass", value: 500, meaning: "kg to be laid down" },
    { name: "Sections", value: 4, meaning: "of the lay-down" },
    { name: "ScaleStep", value: 0.5, meaning: "kg that the scale shows" },
  ],
  tables: [
    {
      name: "Recipe",
      rows: [
        ["solid", "share"],
        ["grey", 0.62],
        ["red", 0.25],
        ["cream", 0.13],
      ],
    },
  ],
  formulas: [
    {
      name: "Creel",
      formula: '=YARN.SLIVERPLAN(Recipe[share],20,"ktex",Ends,1,Recipe[solid])',
      meaning: "whole slivers of 20 ktex, nearest to the recipe",
    },
    {
      name: "WeighUp",
      formula: "=YARN.LAYDOWN(BatchMass,Recipe[#All],Sections,ScaleStep)",
      meaning: "kg to weigh for each section",
    },
  ],
  reading:
    "Compare the share made with the recipe in both: where one sliver is a large step, the lay-down comes nearer; where the recipe falls on whole slivers, the gill is exact and needs no scale. Dyed top goes through the gill; loose dyed wool goes through the card.",
  cautions: ["machinery", "shades"],
  rests: "Every plan of up to 16 slivers was tried to check the first; the second is arithmetic in steps of the scale.",
  words: "sliver slivers lay-down laydown blend gill creel top loose card compare which weigh-up worsted semi-worsted",
};
