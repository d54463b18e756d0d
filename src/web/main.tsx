import './look/fonts.css'
import './look/paper.css'
import './look/frame.css'
import './look/form.css'
import './look/figure.css'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'

const page = document.getElementById('page')
if (page === null) throw new Error('index.html has no place for the page')
createRoot(page).render(<App />)
