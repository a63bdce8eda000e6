import { describe, expect, test } from 'vitest';
import { tokenize } from '../../server/src/language/lexer.ts';

// Source of the spellings: the language page ("Values", "How people really type"); LaTeX commands as Lamport's
// "LaTeX: A Document Preparation System", chapter 3, has them; Unicode names of the signs from the Unicode charts.
/** The tokens' texts, a space before each that stands apart. */
function plain(text: string): string {
  return tokenize(text, 0)
    .tokens.map(token => (token.spaced ? ' ' : '|') + token.text)
    .join('')
    .slice(1);
}

function kinds(text: string): string[] {
  return tokenize(text, 0).tokens.map(token => token.kind);
}

/** What each token stands for in the line, as typed. */
function typed(text: string): string[] {
  return tokenize(text, 0).tokens.map(({ span }) => text.slice(span.start, span.end));
}

describe('numbers', () => {
  test.each([
    ['2.45', '2.45'],
    ['.5', '0.5'],
    ['(.5)', '(|0.5|)'],
    ['0.5mm', '0.5|mm'],
    ['2.5e-3', '2.5e-3'],
    ['2.5E3m', '2.5e3|m'],
    ['2.5e+3', '2.5e3'],
    ['2.5e−3', '2.5e-3'],
    ['2e', '2|e'],
    ['2e-k', '2|e|-|k'],
    ['1 195 635', '1195635'],
    ['1 195 635.25 kg', '1195635.25 kg'],
    ['12\u00A0345', '12345'],
    ['12\u2009345\u202F678', '12345678'],
    ['12  345', '12 345'],
    ['1234 567', '1234 567'],
    ['1 19', '1 19'],
    ['1 1955', '1 1955'],
    ['0 123', '0 123'],
    ['2 3/8', '2 3|/|8'],
    ['2 375/1000', '2 375|/|1000'],
    ['1 195/5', '1195|/|5'],
    ['1 000/5.5', '1000|/|5.5'],
    ['1 000/2000', '1000|/|2000'],
    ['1\u2009195/200', '1195|/|200'],
    ['0,5', '0|,|5'],
    ['1.2.3', '1.2|.|3'],
    ['5.', '5|.'],
    ['L.C.5', 'L|.|C|.|5'],
    ['٢٫٥', '٢|٫|٥'],
  ])('%s', (text, tokens) => {
    expect(plain(text)).toBe(tokens);
  });

  test('a very long number is still one token', () => {
    const digits = '7'.repeat(5000);
    expect(plain(`${digits} mm`)).toBe(`${digits} mm`);
  });

  test('other digits than the usual ones are no numbers', () => {
    expect(kinds('٢')).toEqual(['operator']);
    expect(kinds('½')).toEqual(['operator']);
  });
});

describe('words', () => {
  test.each([
    ['D', 'D'],
    ['D1', 'D1'],
    ['m_0', 'm_0'],
    ['m_{0}', 'm_0'],
    ['m_{\\text{max}}', 'm_max'],
    ['m_\\text{max}', 'm_max'],
    ['\\rho_{0}', 'rho_0'],
    ['D₁', 'D_1'],
    ['D₁₂', 'D_12'],
    ['xₘₐₓ', 'x_max'],
    ['ρ', 'rho'],
    ['πD', 'pi|D'],
    ['Δx', 'Delta|x'],
    ['θ₁', 'theta_1'],
    ['T\u0304', 'T_bar'],
    ['θ\u0304₁', 'theta_1_bar'],
    ['\u1e21', 'g_bar'],
    ['\\bar{T}', 'T_bar'],
    ['\\overline{\\theta}_1', 'theta_1_bar'],
    ['\\rho', 'rho'],
    ['\\varphi', 'phi'],
    ['5µm', '5|µm'],
    ['5 μm', '5 µm'],
    ['μ', 'mu'],
    ['μ_k', 'mu_k'],
    ['\\mu m', 'mu|m'],
    ['kΩ', 'kΩ'],
    ['5 Ω m', '5 Ω m'],
    ['5 \u2126', '5 Ω'],
    ['\\Omega', 'Ω'],
    ['cm3', 'cm3'],
    ['𝐷', 'D'],
    ['lectură', 'lectură'],
    ['6h', '6|h'],
    ['H2O', 'H2|O'],
    ['m_', 'm|_'],
    ['a_b_c', 'a_b_c'],
    ['__proto__', 'proto'],
    ['20 ℃', '20 °C'],
  ])('%s', (text, tokens) => {
    expect(plain(text)).toBe(tokens);
  });
});

describe('signs', () => {
  test.each([
    ['a − b', 'a - b'],
    ['a – b', 'a - b'],
    ['= –0.03', '= -|0.03'],
    ['S–V', 'S|-|V'],
    ['x–2', 'x|-|2'],
    ['(3)–2', '(|3|)|-|2'],
    ['2.3–2.4', '2.3|–|2.4'],
    ['2.3 cm–2.4 cm', '2.3 cm|–|2.4 cm'],
    ['2.3 – 2.4', '2.3 - 2.4'],
    ['3 * 2', '3 × 2'],
    ['3 ✕ 2', '3 × 2'],
    ['3 ⋅ 2', '3 × 2'],
    ['3 · 2', '3 × 2'],
    ['3·2', '3|·|2'],
    ['N·m', 'N|×|m'],
    ['3·k', '3|×|k'],
    ['17 x 0.02', '17 × 0.02'],
    ['17 X .02', '17 × 0.02'],
    ['3 mm x 2', '3 mm × 2'],
    ['(50 - 47) x 2', '(|50 - 47|) × 2'],
    ['2 x + 3', '2 x + 3'],
    ['x 3', 'x 3'],
    ['2x 3', '2|x 3'],
    ['6 ÷ 2', '6 / 2'],
    ['6 ∕ 2', '6 / 2'],
    ['1 ± 2', '1 ± 2'],
    ['1 +/- 2', '1 ± 2'],
    ['1 +- 2', '1 ± 2'],
    ['1 +/− 2', '1 ± 2'],
    ['a ≈ b', 'a ≈ b'],
    ['⇒ x', '⇒ x'],
    ['=> x', '⇒ x'],
    ['∴ x', '⇒ x'],
    ['a=b', 'a|=|b'],
    ['|a - b|', '||a - b||'],
    ['2 = ?', '2 = ?'],
  ])('%s', (text, tokens) => {
    expect(plain(text)).toBe(tokens);
  });
});

describe('angles, shares and exponents', () => {
  test.each([
    ['24° 31′ 20″', '24|° 31|′ 20|″', ['number', 'degree', 'number', 'prime', 'number', 'prime']],
    ['24° 31\' 20"', '24|° 31|′ 20|″', ['number', 'degree', 'number', 'prime', 'number', 'prime']],
    ["31' 20''", '31|′ 20|″', ['number', 'prime', 'number', 'prime']],
    ['31’ 20”', '31|′ 20|″', ['number', 'prime', 'number', 'prime']],
    ["20 ''", '20 ″', ['number', 'prime']],
    ["x'", "x|'", ['word', 'operator']],
    ['24º', '24|°', ['number', 'degree']],
    ['30^\\circ', '30|°', ['number', 'degree']],
    ['30^{\\circ}', '30|°', ['number', 'degree']],
    ['31^{\\prime}', '31|′', ['number', 'prime']],
    ['2 %', '2 %', ['number', 'percent']],
    ['2\\%', '2|%', ['number', 'percent']],
    ['r²', 'r|2', ['word', 'superscript']],
    ['10⁻²', '10|-2', ['number', 'superscript']],
    ['s⁻¹²', 's|-12', ['word', 'superscript']],
    ['x^2', 'x|^|2', ['word', 'operator', 'number']],
    ['x^{-2}', 'x|^|(|-|2|)', ['word', 'operator', 'operator', 'operator', 'number', 'operator']],
  ])('%s', (text, tokens, expected) => {
    expect(plain(text)).toBe(tokens);
    expect(kinds(text)).toEqual(expected);
  });
});

describe('dress', () => {
  test.each([
    ['$\\text{LC} = 0.02\\,\\text{mm}$', 'LC = 0.02 mm'],
    ['$$2.45 \\times 10^{-3}$$', '2.45 × 10|^|(|-|3|)'],
    ['\\(a \\cdot b\\)', 'a × b'],
    ['\\[a \\div b\\]', 'a / b'],
    ['3.58 \\pm 0.02', '3.58 ± 0.02'],
    ['a \\approx b \\le c', 'a ≈ b ≤ c'],
    ['\\frac{a}{b}', '(|(|a|)|/|(|b|)|)'],
    ['\\dfrac{1}{20}\\,mm', '(|1|/|20|) mm'],
    ['\\frac12', '(|1|/|2|)'],
    ['2\\frac{3}{8}', '2 3|/|8'],
    ['\\frac{a + b}{2}', '(|(|a + b|)|/|(|2|)|)'],
    ['\\frac{\\frac{1}{2}}{c}', '(|(|(|1|/|2|)|)|/|(|c|)|)'],
    ['\\sqrt{x}', 'sqrt|(|x|)'],
    ['\\sqrt2', 'sqrt|(|2|)'],
    ['\\left( a \\right)', '( a )'],
    ['\\left\\{ a \\right\\}', '( a )'],
    ['\\mathrm{kg}~\\mathrm{m}^{-3}', 'kg m|^|(|-|3|)'],
    ['2.5\\;\\mathbf{cm}', '2.5 cm'],
    ['2.5\\quad cm', '2.5 cm'],
    ['\\boxed{2.5}', '2.5'],
    ['\\pi \\theta', 'pi theta'],
    ['\\Rightarrow x', '⇒ x'],
    ['\\sin\\theta', 'sin|theta'],
    ['**LC** = 0.02', 'LC = 0.02'],
    ['**LC:** 0.02', 'LC|: 0.02'],
    ['LC = **0.02 mm**', 'LC = 0.02 mm'],
    ['**LC = 0.02', 'LC = 0.02'],
    ['__LC__ = 0.02', 'LC = 0.02'],
    ['*LC* = 3 * 2', 'LC = 3 × 2'],
    ['_LC_ = 3', 'LC = 3'],
    ['`LC` = 3', 'LC = 3'],
    ['3 * 2', '3 × 2'],
    ['2**3', '2|×|×|3'],
    ['* LC = 3 * 2', '× LC = 3 × 2'],
    ['3 *2* 4', '3 ×|2|× 4'],
    ['2.5\u200B mm', '2.5 mm'],
    ['{2.5}', '2.5'],
    ['2.5 [mm]', '2.5 [|mm|]'],
  ])('%s', (text, tokens) => {
    expect(plain(text)).toBe(tokens);
  });

  test('a token reaches over the dress that belongs to it, so that it can be replaced whole', () => {
    expect(typed('2.45\\,\\text{cm}')).toEqual(['2.45', '\\text{cm}']);
    expect(typed('\\frac{1}{20}')).toEqual(['\\frac{', '1', '', '20', '}']);
    expect(typed('2\\frac{3}{8}')).toEqual(['2', '\\frac{3}', '', '{8}']);
    expect(typed('m_{0} = \\left(1\\right)')).toEqual(['m_{0}', '=', '\\left(', '1', '\\right)']);
    expect(typed('30^{\\circ}')).toEqual(['30', '^{\\circ}']);
  });
});

describe('comments', () => {
  test.each([
    ['LC = 2 # checked', 'LC = 2', '# checked'],
    ['# all of it', '', '# all of it'],
    ['a\t#b # c', 'a', '#b # c'],
    ['S#3 = 2', 'S|# 3 = 2'.replace('# 3', '#|3'), null],
    ['\\# 3', '# 3', null],
  ])('%s', (text, tokens, comment) => {
    const read = tokenize(text, 100);
    expect(plain(text)).toBe(tokens);
    expect(read.comment && text.slice(read.comment.start - 100, read.comment.end - 100)).toBe(comment);
  });
});

test('spans count from the beginning of the note', () => {
  const [first, second] = tokenize('2.45 cm', 1000).tokens;
  expect(first?.span).toEqual({ start: 1000, end: 1004 });
  expect(second?.span).toEqual({ start: 1005, end: 1007 });
});
