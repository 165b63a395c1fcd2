import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { RecipeAnswer, SheetsAnswer } from '../../desk/contract.ts';
import { recipeQuestion, sheetsQuestion, type RecipeAsked } from '../ask/questions.ts';
import { Asked } from '../parts/Asked.tsx';
import { usePrinting } from '../parts/usePrinting.ts';
import { MixingSheet } from './MixingSheet.tsx';
import { RecipeForm } from './RecipeForm.tsx';
import { RecipeWords } from './RecipeWords.tsx';
import './water.css';

/** Concentrates for a crop from the products on the shelf: worked out, checked, and printed one sheet a tank. */
export function RecipePage() {
  const query = useQuery(sheetsQuestion);
  return (
    <div className="sheets-page">
      <p className="small no-print"><Link to="/water">Water</Link></p>
      <h1 className="no-print">Concentrates for a crop</h1>
      <Asked query={query} what="crops and waters">{({ choices }) => <Chooser choices={choices} />}</Asked>
    </div>
  );
}

function Chooser({ choices }: { readonly choices: SheetsAnswer['choices'] }) {
  const [crop, water] = [choices.crops[0], choices.waters[0]];
  if (crop === undefined || water === undefined) return <p>A recipe needs a crop card and a fresh water with an analysis; {crop === undefined ? 'no crop card' : 'no analysis of a fresh water'} is in the folder.</p>;
  return <Recipe choices={choices} first={{ crop: crop.id, water: water.id, table: 'target', factor: 100, tankL: 200, moves: {} }} />;
}

function Recipe({ choices, first }: { readonly choices: SheetsAnswer['choices']; readonly first: RecipeAsked }) {
  const [asked, ask] = useState(first);
  const query = useQuery(recipeQuestion(asked));
  const moved = Object.entries(asked.moves);
  return (
    <>
      <RecipeForm choices={choices} asked={asked} ask={ask} />
      {moved.length > 0 && <div className="choices no-print">{moved.map(([product, tank]) => <button key={product} type="button" onClick={() => ask({ ...asked, moves: Object.fromEntries(moved.filter(([id]) => id !== product)) })}>Put {product} back from tank {tank}</button>)}</div>}
      <Asked query={query} what="the recipe">{(answer) => <Answer answer={answer} move={(product, tank) => ask({ ...asked, moves: { ...asked.moves, [product]: tank } })} />}</Asked>
    </>
  );
}

function Answer({ answer, move }: { readonly answer: RecipeAnswer; readonly move: (product: string, tank: string) => void }) {
  const printing = usePrinting();
  const { recipe } = answer;
  return (
    <>
      <RecipeWords answer={answer} move={move} />
      <div className="choices no-print"><button type="button" className="main" onClick={() => window.print()}>Print the recipe and {recipe.sheets.length} sheets</button></div>
      {recipe.sheets.map((sheet) => <MixingSheet key={sheet.id} sheet={sheet} greenhouse={answer.greenhouse} date={answer.date} made={`${recipe.title}, 1 in ${answer.factor}, with ${recipe.waterTitle}, ${recipe.waterBasis}`} cautions={answer.cautions} printing={printing} />)}
    </>
  );
}
