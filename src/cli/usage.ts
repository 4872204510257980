export const USAGE = `npm run --silent assess -- FILE… [options]

FILE is a table of step times: CSV, tab-separated text, WebVTT chapters or .xlsx; - is standard input.

  --me NAME          which name in the surgeon column is you
  --reference NAME   another surgeon, who agreed, as reference set (may be given several times)
  --procedure ID     phaco or sics, where the file does not say
  --answer ID=VALUE  answer to a question the file leaves open; the questions are printed (several times)
  --facts FILE       facts of the eye in a second file, joined by case_id
  --together         all files are one record: a code that comes again is the same case
  --sheet NAME       of a workbook; without it the sheet that holds most cases is read and the others are
                     listed (several times; with --together every sheet with cases is read)
  --seed N           for the resamples (1)
  --json             JSON alone on standard output, one line a file (one line in all with --together)
  --schema           prints the JSON Schema of such a line, and nothing else
  --goal STEP --from CASE_ID [--window 20|40] [--measure time|steadiness] [--chosen]
                     what came of a goal on STEP (or "suggested") from CASE_ID on
  --eyes FACT=LEVEL  with --goal: aimed at these eyes only (pupil=small, toric=yes, nucleus=hard+very-hard)
  --compare A..B C..D [--fixed]
                     whether a step was shorter or longer in cases C to D than in A to B
                     (case ids); judged as chosen freely unless --fixed beforehand
  -h, --help         prints this

A workbook is read in a process of its own, which is stopped after 30 seconds or at 1 GB of memory;
at most 10 MB, 300,000 rows and 500 columns. Otherwise save its sheet as CSV.

Exit codes
  0  at least one case was assessed in every file; rows left out are counted on standard error
  1  the program itself could not start
  2  nothing could be assessed in at least one file, or the call was wrong: a case, question, step, surgeon,
     sheet or fact of the eye that is not there (the message says which there are)

Examples
  npm run --silent assess -- times.csv
  npm run --silent assess -- all.csv --me A --reference B --json
  npm run --silent assess -- january.csv february.csv --together
  npm run --silent assess -- times.xlsx --sheet Times --answer date-order=day-first
  npm run --silent assess -- times.csv --goal capsulorhexis --from C41
  pbpaste | npm run --silent assess -- - --json

Times are read after surgery, from recordings. Nothing is stored.`;
