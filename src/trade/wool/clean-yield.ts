import type { YieldKind } from "../../tables/yield-kinds";
import { asShown, Decimal } from "../money";
import { impossible, refuse } from "../refusal";

/**
 * Residues that test houses leave in scoured wool, 2.27 % of its dry mass (ash and what alcohol extracts); dry wool
 * and vegetable matter are the other 97.73 %. Source: CERTIFICATE.
 */
const DRY_PART_OF_SCOURED = 0.9773;

/** 12 % moisture, 1.5 % extractables, 0.5 % ash leave 86 % dry fibre. Sources: 19-CFR-151.61, ASTM-D584. */
const DRY_PART_OF_CLEAN_FIBRE = new Decimal(1).minus(0.12).minus(0.015).minus(0.005);

// 19-CFR-151.61 (b): the allowance for what is lost in cleaning, and its cap, on the absolute clean content.
const ALLOWANCE_ON_CONTENT = 0.005;
const ALLOWANCE_ON_VEGETABLE_MATTER = 0.6;
const MOST_ALLOWANCE = 0.15;

/** Less is no wool lot; common practice, no source. */
const LEAST_WOOL_BASE = 0.1;
/** The burriest wool that is sold as wool; common practice, no source. */
const MOST_VEGETABLE_MATTER = 0.4;

/**
 * Clean yield from the wool base and the vegetable matter base of a core test. In decimal, because certificates round
 * it to 0.1 % afterwards: a figure that ends in 5 must not fall just below it.
 */
export function woolYield(kind: YieldKind, woolBase: number, vegetableMatterBase: number): number {
  const both = asShown(woolBase).plus(asShown(vegetableMatterBase));
  if (both.gt(1)) refuse("vm_base", String(vegetableMatterBase), `with wool_base ${woolBase} passes 1 (100%)`);
  if (vegetableMatterBase > woolBase) {
    refuse("vm_base", String(vegetableMatterBase), `above wool_base ${woolBase}; are the two swapped?`);
  }
  if (vegetableMatterBase > MOST_VEGETABLE_MATTER) {
    refuse("vm_base", String(vegetableMatterBase), "must be 0 to 0.4 (40%); 0.5% is 0.005");
  }
  const found = yieldOf(kind, new Decimal(woolBase), new Decimal(vegetableMatterBase)).toNumber();
  if (!(found > 0)) impossible("wool_base", String(woolBase), "too little to leave a yield of this kind");
  if (woolBase >= LEAST_WOOL_BASE) return found;
  const meant = Number((woolBase * 100).toPrecision(12));
  return refuse(
    "wool_base",
    String(woolBase),
    `write ${Number((meant * 100).toPrecision(12))}% or ${meant}; less than a tenth is no wool lot`,
  );
}

function yieldOf({ is }: YieldKind, woolBase: Decimal, vegetableMatterBase: Decimal): Decimal {
  switch (is.rule) {
    case "scoured":
      return woolBase.plus(vegetableMatterBase).times(new Decimal(1).plus(is.regain)).div(DRY_PART_OF_SCOURED);
    case "clean fibre":
      return cleanFibre(woolBase);
    case "customs clean": {
      const content = cleanFibre(woolBase);
      const allowance = content
        .times(ALLOWANCE_ON_CONTENT)
        .plus(vegetableMatterBase.times(ALLOWANCE_ON_VEGETABLE_MATTER));
      return content.minus(Decimal.min(allowance, content.times(MOST_ALLOWANCE)));
    }
    case "top and noil": {
      // Recalled: the allowance for processing rises with the vegetable matter, here in percent.
      const percent = vegetableMatterBase.times(100);
      const allowance = new Decimal(7.7).minus(new Decimal(40.6).div(percent.plus(7.8))).div(100);
      return woolBase.times(1.207).minus(allowance);
    }
  }
}

function cleanFibre(woolBase: Decimal): Decimal {
  return woolBase.div(DRY_PART_OF_CLEAN_FIBRE);
}
