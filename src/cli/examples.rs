//! Worked examples under the long help of each command: every option that it has stands in one of them, and the tests run them all
//! from the folder of the source.

/// `setover plan`
pub(super) const PLAN: &str = "Examples:
  setover plan demo/tidewater.yaml
  setover plan demo/tidewater.yaml --sheet 7 --values --units both
  setover plan demo/tidewater.yaml --part \"idler thrust collar\" --all
  setover plan demo/tidewater.yaml --operation face --strict
  setover plan examples/face.yaml --shop demo/shop.yaml --format json
  setover plan examples/face.yaml -o face.txt --force
  setover plan examples/face.yaml --since L0";

/// `setover sheets`
pub(super) const SHEETS: &str = "Examples:
  setover sheets demo/tidewater.yaml -o sheets.pdf
  setover sheets demo/tidewater.yaml -o sheets.pdf --working --cover --units both
  setover sheets examples/face.yaml -o face.html --format html --force
  setover sheets examples/face.yaml -o face.pdf --sketches sketches --strict
  setover sheets examples/face.yaml -o face.pdf --shop demo/shop.yaml
To look at it at once: setover sheets examples/face.yaml --open";

/// `setover day`
pub(super) const DAY: &str = "Examples:
  setover day demo/tidewater.yaml
  setover day demo/tidewater.yaml --date 2026-12-01 --from 13:20 --to 17:00 --days 2
  setover day demo/tidewater.yaml --done 2.1,2.2@10:02 --from 10:05 --at-work 7.1 --why
  setover day demo/tidewater.yaml --leave-out cool-before-measure --rigged \"belt lathe=soft-jaws 58 mm\"
  setover day demo/tidewater.yaml --format json > monday.json
  setover day demo/tidewater.yaml --like monday.json --strict
  setover day demo/tidewater.yaml -o day.pdf --with-sheets --force --shop demo/shop.yaml --units both";

/// `setover log`
pub(super) const LOG: &str = "Examples:
  setover log examples/face.yaml \"distance piece/face\"
  setover log examples/face.yaml \"distance piece/face\" length_after=\"21.61 mm\" with=micrometer --date 2026-12-04 --by EW
  setover log examples/face.yaml \"distance piece/face\" length_after=\"21.62 mm\" with=micrometer --corrects L1 --date 2026-12-04 --and examples/turn.yaml
  setover log examples/wash.yaml \"pump cover/wash\" done=yes note=\"oilways blown through\"
  setover log examples/face.yaml --withdraws L2 --date 2026-12-05 --wait 30
  setover log examples/face.yaml --withdraws L1 --date 2026-12-05
  setover log examples/face.yaml
  setover log examples/face.yaml --mend --shop examples/shop.yaml
The blanks of the page for a screen, copied into a file: setover log examples/face.yaml --from lines.txt";

/// `setover decide`
pub(super) const DECIDE: &str = "Examples:
  setover decide demo/found.yaml demo/tidewater.yaml
  setover decide demo/found.yaml demo/tidewater.yaml -o found.pdf --force
  setover decide demo/found.yaml demo/tidewater.yaml --format html > found.html
  setover decide demo/found.yaml demo/tidewater.yaml --shop demo/shop.yaml --units both --strict";

/// `setover try`
pub(super) const TRY: &str = "Examples:
  setover try thread-insert thread=M8x1.25 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\"
  setover try thread-insert thread=M8 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\" --over wall=\"12 mm to 30 mm\"
  setover try thread-insert thread=M8 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\" --shake 1000 --units inch
  setover try thread-insert thread=M8 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\" --shop demo/shop.yaml --values --strict
  setover try thread-insert thread=M8 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\" --format svg -o lengths.svg --force
  setover try thread-insert thread=M8 wall=\"18.0 ± 0.3 mm\" hole=blind part.material=\"cast aluminium\" --all";

/// `setover why`
pub(super) const WHY: &str = "Examples:
  setover why demo/tidewater.yaml
  setover why demo/tidewater.yaml \"timing chest/cover screw/wall_needed\"
  setover why examples/face.yaml removed --beside demo/tidewater.yaml
  setover why examples/face.yaml removed --units both
  setover why examples/face.yaml cutting_force --shop examples/shop.yaml --format json";

/// `setover book`
pub(super) const BOOK: &str = "Examples:
  setover book
  setover book thread \"1/4 BSF\"
  setover book thread 1/4-20 --all
  setover book fit \"25 H7/p6\" --units both
  setover book materials
  setover book drill diameter=\"no. 7\" material=\"cast iron\" --format json
  setover book speed material=EN8 work=turn-finish tool=HSS diameter=\"38 mm\" --shop demo/shop.yaml";

/// `setover start`
pub(super) const START: &str = "Examples:
  setover start my-shop --plain
With questions: setover start my-shop";

/// `setover ask`
pub(super) const ASK: &str = "Examples:
  setover ask thread-insert -o cover.yaml --shop demo/shop.yaml
The answers may come through a pipe, a line each.";

/// `setover keys`
pub(super) const KEYS: &str = "Examples:
  setover keys
  setover keys thread-insert --units inch
  setover keys shop --format json";

/// `setover operations`
pub(super) const OPERATIONS: &str = "Examples:
  setover operations
  setover operations --format json";

/// `setover schema`
pub(super) const SCHEMA: &str = "Examples:
  setover schema job > job.schema.json";

/// `setover watch`
pub(super) const WATCH: &str = "Until it is stopped with Ctrl-C:
  setover watch demo/tidewater.yaml --sheet 7
It takes what `setover plan` takes: --part, --operation, --values, --all, --shop, --units, --strict.";

/// `setover completions`
pub(super) const COMPLETIONS: &str = "Examples:
  setover completions bash > setover.bash
  setover completions fish";

/// `setover man`
pub(super) const MAN: &str = "Examples:
  setover man > setover.1";
