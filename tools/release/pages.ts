/**
 * The pages that a builder reads: how to install and remove, what is sent (nothing), where help is, and how the folder
 * is put on a server. Steps in Excel: Microsoft, "Sideload Office Add-ins" for the web, for Windows from a shared
 * folder, and for the Mac. Nobody here has tried them in Excel, and the pages say so.
 */
interface Place {
  readonly host: string;
  readonly version: string;
}

const LINKS = [
  ['index.html', 'Install'],
  ['bench/', 'Without Excel'],
  ['{version}/functions/reference/index.html', 'Functions'],
  ['support.html', 'Help'],
  ['privacy.html', 'Privacy'],
] as const;

const STYLE = `:root{color-scheme:light dark}body{margin:0 auto;max-width:46rem;padding:1rem;font:16px/1.55 system-ui,'Segoe UI',sans-serif}
header{display:flex;gap:.75rem;align-items:center;flex-wrap:wrap}header img{width:40px;height:40px}nav a{margin-right:1rem}
h1{font-size:1.5rem}h2{font-size:1.15rem;margin-top:2rem}li{margin:.3rem 0}code,kbd{font-family:ui-monospace,monospace;overflow-wrap:anywhere}
.note{border-left:4px solid #f2b33d;padding:.25rem .75rem}`;

const page = ({ version }: Place, title: string, body: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<title>${title}</title>
<link rel="icon" href="icon.svg">
<style>${STYLE}</style>
</head>
<body>
<header><img src="icon.svg" alt=""><nav aria-label="Pages">${LINKS.map(
  ([to, label]) => `<a href="${to.replace('{version}', version)}">${label}</a>`,
).join('')}</nav></header>
<main>
<h1>${title}</h1>
${body.trim()}
</main>
<footer><p>Version ${version}. <a href="CHANGELOG.txt">What is new</a>, <a href="LICENSE.txt">licence</a>, <a href="THIRD-PARTY-NOTICES.txt">work of others in it</a>.</p></footer>
</body>
</html>
`;

const CAUTION = `<p class="note"><strong>An estimate is not a weighing.</strong> Loading limits come from the aircraft’s own documents, structural joints from the designer’s drawings. Check what you rely on.</p>`;

const install = (place: Place): string =>
  page(
    place,
    'Tarebook in your Excel',
    `
<p>Tarebook adds functions such as <code>=TARE.WEIGHT.SHEET(area, thickness, "6061-T6")</code> and a pane for weights, balance, rivets, prices and buying to the workbook of your airplane. It runs in Excel for Microsoft 365 and in Excel 2021 and newer, on Windows, on the Mac and on the web. It does not run on the iPad or in Excel 2019 and older.</p>
${CAUTION}
<p class="note">These steps are taken from Microsoft’s documentation. Nobody who made Tarebook has an Excel to try them in: if a menu has another name in yours, <a href="support.html">tell us</a>.</p>
<p><strong>First, for every Excel: save <a href="manifest.xml" download="tarebook.xml">tarebook.xml</a>.</strong> This small file tells Excel where Tarebook is.</p>
<h2 id="web">Excel on the web</h2>
<ol>
<li>Open a workbook in the browser.</li>
<li>On the tab Home, press Add-ins, then More Add-ins (or More Settings).</li>
<li>Under My Add-ins, choose Upload My Add-in.</li>
<li>Choose the file tarebook.xml and press Upload.</li>
</ol>
<p>It is there in that browser until you remove it or clear the browser’s data.</p>
<h2 id="windows">Excel on Windows</h2>
<ol>
<li>Make a folder, for instance <code>C:\\Add-ins</code>, and put tarebook.xml into it.</li>
<li>Right-click the folder, choose Properties, then Sharing, then Share, and share it with yourself. Note the network path that Windows shows, such as <code>\\\\MY-PC\\Add-ins</code>.</li>
<li>In Excel: File, Options, Trust Center, Trust Center Settings, Trusted Add-in Catalogs.</li>
<li>Type the network path as Catalog Url, press Add catalog, tick Show in Menu, press OK twice, and start Excel again.</li>
<li>On the tab Home, press Add-ins, then More Add-ins (or Advanced), then Shared Folder. Choose Tarebook and press Add.</li>
</ol>
<h2 id="mac">Excel on the Mac</h2>
<ol>
<li>In the Finder: Go, Go to Folder, and type <code>~/Library/Containers/com.microsoft.Excel/Data/Documents</code></li>
<li>Make a folder <code>wef</code> there if there is none, and put tarebook.xml into it.</li>
<li>Start Excel again and open a workbook. On the tab Home, press Add-ins: Tarebook is listed under Developer Add-ins.</li>
</ol>
<p>On the Mac a pane can neither save a file nor print. Where that matters the pane says so, and gives you a new sheet or a text to copy.</p>
<h2 id="check">Is it right in your Excel?</h2>
<p>Save <a href="bench/samples/self-check.xlsx" download>self-check.xlsx</a> and open it in Excel. It has every example of every function, with the value that it must give. After a few seconds its cell B3 should say that all checks pass. If it does not, <a href="support.html">send us what it says</a>.</p>
<p>Then type <code>=TARE.</code> in a cell of your own workbook, or press Weights and prices on the tab Home.</p>
<h2 id="remove">Remove it</h2>
<ul>
<li>Web: Home, Add-ins, the dots beside Tarebook, Remove.</li>
<li>Windows: delete tarebook.xml from the shared folder and start Excel again.</li>
<li>Mac: delete tarebook.xml from the folder wef and start Excel again.</li>
</ul>
<p>Your workbooks stay as they are. Cells with TARE functions keep the values that they show until they are calculated, and show <code>#NAME?</code> then.</p>
<h2 id="bench">No Excel?</h2>
<p><a href="bench/">The bench</a> is a spreadsheet in the browser with the same functions and the same pane. It opens and saves .xlsx files. Your browser can install it like a program, and it works without the network after the first visit.</p>
`,
  );

const privacy = (place: Place): string =>
  page(
    place,
    'Privacy: nothing is sent',
    `
<p>Tarebook sends nothing and collects nothing. There is no account, no telemetry, no cookie, and no request to anywhere but the server that these pages come from, which delivers the program’s own files.</p>
<ul>
<li><strong>Your workbook</strong> is read and calculated on your computer, in Excel, in your browser or by the command. It is never uploaded.</li>
<li><strong>Settings</strong> of the pane, and on the bench the workbooks that are open, are kept in your browser’s own storage on your computer. Clear the browser’s data for this site, and they are gone.</li>
<li><strong>The server</strong> that these pages come from sees what any web server sees: which files were fetched, when, and from which network address. What it records is up to whoever runs it.</li>
<li><strong>Excel itself</strong> is Microsoft’s program with Microsoft’s own terms. The part of it that Tarebook needs (Office.js) is served from here, and the pane’s rules forbid it to ask any other server.</li>
</ul>
`,
  );

const support = (place: Place): string =>
  page(
    place,
    'Help',
    `
<p>This version is ${place.version}, served from <code>${place.host}</code>. Ask whoever gave you this address.</p>
<h2>A report of trouble</h2>
<p>Please send:</p>
<ul>
<li>what cell B3 and the table of <a href="bench/samples/self-check.xlsx" download>self-check.xlsx</a> say in your Excel,</li>
<li>which Excel it is: File, Account, About Excel (on the Mac: Excel, About Excel),</li>
<li>the formula, what it shows, and what you expected.</li>
</ul>
<h2>Common trouble</h2>
<dl>
<dt>Cells show <code>#NAME?</code></dt><dd>The workbook was opened before Tarebook was on, or comes from another add-in. Open the pane: it says how many there are, and writes them again in one step that Undo takes back.</dd>
<dt>Cells show <code>#BUSY!</code> for long</dt><dd>Excel waits for the add-in. Press Ctrl+Alt+F9. If that does not help, close the workbook and open it again.</dd>
<dt>The functions are not in the list</dt><dd>Start Excel again. On Windows, close every window of Excel first.</dd>
<dt>A value looks wrong</dt><dd>Each function’s page under <a href="${place.version}/functions/reference/index.html">Functions</a> has its formula, its source and a worked example.</dd>
</dl>
`,
  );

const hosting = (place: Place): string =>
  page(
    place,
    'Put this folder on a server',
    `
<p>This folder is all there is: plain files, no program on the server. It was made for <code>${place.host}</code>, and the manifest names that address. For another address make it again: <code>npm run release -- --host https://your.host/tarebook</code></p>
<ol>
<li>Copy everything in this folder (or unpack the zip) to where <code>${place.host}/</code> leads. Any web server and any host of static files will do, at the top of a site or under any path.</li>
<li>It must answer by <strong>https</strong>: Excel loads nothing else.</li>
<li>Excel on the web fetches the functions from its own pages. The server must send the header <code>Access-Control-Allow-Origin: *</code> with <code>${place.version}/functions/</code>.</li>
<li>The server must know these types: <code>.wasm</code> application/wasm, <code>.js</code> text/javascript, <code>.webmanifest</code> application/manifest+json, <code>.xml</code> text/xml, <code>.xlsx</code> application/vnd.openxmlformats-officedocument.spreadsheetml.sheet. Most do.</li>
<li>Send <code>bench/worker.js</code> and the pages with <code>Cache-Control: no-cache</code>, so that a new version is noticed.</li>
<li>Open <code>${place.host}/</code> in a browser, then <code>${place.host}/bench/</code>.</li>
</ol>
<p><strong>A new version.</strong> The add-in lies in a folder named by its version. Leave the folders of older versions where they are as long as somebody uses them: who installed the add-in goes on with that version until the new manifest.xml is installed. The bench offers its new version to whoever has it open.</p>
<p><strong>Whole and unchanged?</strong> The file SHA256SUMS beside this folder lists every file. In the folder that holds it: <code>sha256sum --check SHA256SUMS</code></p>
`,
  );

/** The pages by their names. */
export const pages = (place: Place): Readonly<Record<string, string>> => ({
  'index.html': install(place),
  'privacy.html': privacy(place),
  'support.html': support(place),
  'hosting.html': hosting(place),
});
