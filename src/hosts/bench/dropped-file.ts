import { useEffect, useState } from 'react';

const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** Calls back with a file that is dropped anywhere on the page; true while one is dragged over it. */
export function useDroppedFile(onFile: (file: File) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const drag = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file) onFile(file);
    };
    // In the capture phase: the grid has drops of its own.
    window.addEventListener('dragover', drag, true);
    window.addEventListener('dragleave', leave, true);
    window.addEventListener('drop', drop, true);
    return () => {
      window.removeEventListener('dragover', drag, true);
      window.removeEventListener('dragleave', leave, true);
      window.removeEventListener('drop', drop, true);
    };
  }, [onFile]);
  return over;
}
