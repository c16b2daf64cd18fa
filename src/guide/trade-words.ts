/**
 * Words people of the trade look for that the functions' own texts may not hold: the words, then the ids they lead to,
 * the nearest first. The search of the guide reads them.
 */
export const TRADE_WORDS: readonly (readonly [words: string, ids: string])[] = [
  [
    "ply plies plied two three four five six 2-ply 3-ply 4-ply 5-ply 2ply 3ply 4ply 5ply fold twofold threefold fivefold",
    "PLYCOUNT SINGLECOUNT PLYTWIST PLYTAKEUP RESIDUALTWIST DESIGNATION DESIGNATE",
  ],
  ["strand cable cabled marl doubling doubled core-spun fold", "FOLD FOLDSHARES FOLDMISSING PLYCOUNT"],
  [
    "fineness of yarn thickness grist size number linear density titre yarn weight sport dk aran fingering worsted",
    "COUNT WRAPS DIAMETER YARNLENGTH",
  ],
  ["wpi", "WRAPS"],
  ["yardage meterage metres per skein put-up run length grist", "YARNLENGTH YARNMASS SKEINCOUNT REELTURNS"],
  ["shrinkage scour finish fulling wet relax bulk", "WASHED"],
  ["sample balance weigh test hank wrap reel", "SKEINCOUNT MEASUREDREGAIN"],
  [
    "moisture humidity damp wet dry condition conditioning oven water",
    "REGAIN REGAINS REGAINOF MOISTUREOF MEASUREDREGAIN DRYMASS CONDITIONED INVOICEMASS BLENDREGAIN",
  ],
  ["official recovery commercial standard allowance", "REGAIN REGAINS BLENDREGAIN LABELSHARES"],
  ["invoice delivery note check contractor weight short delivery claim", "INVOICEMASS CONDITIONED NETCHECK"],
  ["label composition percent wool nylon content labelling", "LABELSHARES SHORTFALL NETCHECK"],
  ["noil noils comb combing comber", "ROMAINE TEAR TOPFORECAST WOOLYIELD ROUTE"],
  ["top tops sliver staple strength hauteur", "TOPFORECAST DRAWN DRAFT WOOLYIELD"],
  [
    "grease greasy fleece raw wool clip bale clean scoured vm burr lanolin core certificate",
    "WOOLYIELD CLEANMASS COMBINEDYIELD CLEANPRICE GREASYPRICE BALESTOCORE",
  ],
  [
    "micron diameter merino crossbred bradford quality grade spinning count 64s",
    "WOOLGRADE BLENDMICRON SPINFINENESS SPINLIMIT",
  ],
  ["sampling cores coring bales lot", "BALESTOCORE"],
  ["skein hank ball cone put-up pack banding", "SKEINS SKEINREMAINDER REELTURNS SHORTFALL NETCHECK"],
  ["reel swift winding winder circumference", "REELTURNS"],
  ["average system packer underweight tolerance e-mark", "SHORTFALL NETCHECK"],
  [
    "heather heathers melange mélange mixture tweed colourway colorway recipe blend blending",
    "MIXNEED MIXROUND MIXSTOCK LAYDOWN MIXSHADE MIXMATCH MIXCHOICES MIXFIT",
  ],
  [
    "solids solid dyed colour color colours colors shade shades",
    "MIXNEED MIXSTOCK MIXMATCH MIXSHADE SHADEDIFF LAYDOWN",
  ],
  ["gill gilling gillbox creel slivers top blending tops pre-blend heather melange passage", "SLIVERPLAN FOLDSHARES"],
  [
    "schedule deadline delivery date lead time start finish float slack late critical path network working days holidays planning calendar when",
    "TIMEPLAN MACHINEHOURS",
  ],
  [
    "quote quotation offer bid tender contractor compare cheapest minimum charge commission mill",
    "QUOTES CHARGE ROUTECOST",
  ],
  ["uncertainty tolerance spread range risk sensitivity confidence how sure estimate variance", "COSTSPREAD SWING"],
  ["write-down impairment net realisable value nrv credit note late charge inventory valuation", "STOCKLEDGER"],
  ["carding card batch bin weigh weigh-up layers sandwich", "LAYDOWN MIXROUND"],
  ["formulate match matching recipe pad swatch hand-carded", "MIXMATCH MIXCHOICES MIXFIT MIXCORRECT SHADEPASS"],
  ["correct correction adjust adjustment add addition off-shade batch", "MIXADD MIXCORRECT"],
  [
    "delta e difference tolerance pass fail lab standard approval",
    "SHADEDIFF SHADEPASS GREYSCALE SHADEPARTS SHADESORT",
  ],
  ["lighter darker duller brighter redder yellower greener bluer", "SHADEPARTS"],
  ["staining fastness adjacent wash rub crocking", "GREYSCALE"],
  ["555 shade block sort sorting lots rolls", "SHADESORT"],
  ["rgb hex screen swatch", "LABFROMRGB LABTORGB"],
  ["spectrum spectrophotometer reflectance light daylight lamp LED TL84 CWF", "LABOF METAMERISM MIXSHADE"],
  ["cheapest optimise optimize optimum linear programme program", "LEASTCOST MIXSTOCK"],
  ["leftover stash stock inventory use up", "MIXSTOCK STOCKLEDGER"],
  ["dyehouse dyeing dye vat kettle lot liquor recipe", "DYEBATH DYELOTS"],
  [
    "loss losses waste wastage invisible yield process how much to buy order",
    "NEED MADE ROUTE STAGELOSS ROUTECOST DYELOTS",
  ],
  ["fly fallout sweepings by-product", "STAGELOSS ROUTE ROUTECOST"],
  [
    "landed landing freight shipping import total cost per skein",
    "LANDED ROUTECOST CHARGEABLE INSURANCE DUTY FEE EXCHANGE",
  ],
  ["duty tariff customs ad valorem import broker", "DUTY FEE LANDED"],
  ["mpf hmf processing harbour harbor fee", "FEE"],
  ["volumetric dimensional air freight courier chargeable", "CHARGEABLE"],
  ["cif insured premium", "INSURANCE"],
  ["currency fx forex rate convert euro dollar pound", "EXCHANGE"],
  [
    "minimum charge lot charge surcharge quote commission contractor tariff price list break",
    "CHARGE TIERED ROUTECOST ORDERSIZE",
  ],
  ["allocate allocation share out split prorate pro rata overhead", "APPORTION LANDED JOINTCOST"],
  ["round cent penny swiss bankers banker's", "ROUNDCASH"],
  [
    "profit mark-up markup wholesale retail keystone selling price",
    "PRICEFORMARGIN PRICEFORMARKUP MARGIN MARKUP BREAKEVEN",
  ],
  ["fixed cost contribution", "BREAKEVEN"],
  ["standard cost mix yield usage efficiency", "VARIANCE"],
  ["fixed overhead absorbed over under recovered expenditure capacity volume", "OVERHEADVARIANCE"],
  ["work in progress wip process costing equivalent", "EQUIVALENT"],
  ["fifo average inventory valuation", "STOCKLEDGER EQUIVALENT"],
  ["sensitivity tornado what-if", "SWING"],
  ["moq minimum order quantity discount", "ORDERSIZE TIERED"],
  [
    "turns tpi tpm twist multiplier multiple alpha factor",
    "TWIST TWISTFACTOR TWISTFOR TWISTUNIT FACTORUNIT TWISTCONVENTIONS",
  ],
  ["spindle flyer ring frame front roller", "TWIST ROLLTWIST SPINDLESPEED ROLLSPEED DELIVERY TRAVELLERLAG SPINRATE"],
  ["helix angle", "TWISTANGLE"],
  ["contraction take-up retraction shrink", "TAKEUP PLYTAKEUP PLYCOUNT"],
  ["balanced ply over-plied lively snarl torque", "PLYTWIST RESIDUALTWIST"],
  ["gill gilling drawing roving rover slubbing passage", "DRAFTPLAN DRAFT DRAWN ROLLDRAFT"],
  ["gear gearing pinion teeth change constant", "CHANGEWHEEL WHEELCONSTANT"],
  ["uster regularity irregularity even uneven thin thick", "LIMITCV EVENNESSINDEX DOUBLEDCV FIBRES"],
  ["spinnability limit count finest end breaks", "SPINLIMIT FIBRES SPINFINENESS"],
  ["output capacity hours schedule lead time spindles", "SPINRATE SPINDLESNEEDED MACHINEHOURS"],
  ["dry weight bone-dry oven-dry", "DRYMASS MEASUREDREGAIN INVOICEMASS"],
  ["wraps per inch wpi", "WRAPS DIAMETER"],
  ["buy purchase order wool how much", "NEED ROUTE ROUTECOST GREASYPRICE CLEANPRICE"],
  ["convert change translate units", "COUNT TWISTUNIT FACTORUNIT EXCHANGE"],
  ["divide distribute spread a charge over lines", "APPORTION LANDED"],
  ["pay owe bill invoice charged", "CHARGE INVOICEMASS TIERED"],
  ["sell selling", "PRICEFORMARGIN PRICEFORMARKUP BREAKEVEN"],
  ["ship send import bring in", "LANDED CHARGEABLE INSURANCE DUTY"],
  ["spin spun spinning speed up", "SPINRATE SPINDLESPEED SPINDLESNEEDED SPINLIMIT"],
  ["plied plying strands", "PLYCOUNT PLYTWIST PLYTAKEUP FOLD"],
  ["dyed dyes colouring", "DYEBATH DYELOTS MIXNEED"],
  ["measure test check enough within order", "ORDERCHECK TESTSNEEDED MEANRANGE NETCHECK"],
  ["compare mills lots differ", "QUOTES LOTSDIFFER"],
  ["reference standard verify evidence provenance", "SOURCES"],
];

/** The trade words that lead to one function; to it before others, where `nearest`. */
export function tradeWordsOf(id: string, nearest: boolean): string {
  return TRADE_WORDS.filter(([, ids]) => (ids.split(" ").indexOf(id) === 0) === nearest && ids.split(" ").includes(id))
    .map(([words]) => words)
    .join(" ");
}
